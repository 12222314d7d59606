#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static bool is_protective_earth(const Resolved& resolved, const Contact& contact) {
  const auto* c = resolved.circuit_class(contact);
  return c != nullptr && **c == Circuit_class::protective_earth;
}

// A plug that does not sit on the board: which wire passes through it is not described.
static bool off_board(const Resolved& resolved, const Contact& contact) {
  const Connector* connector = resolved.connector(contact.connector);
  return connector == nullptr || (connector->mounted && *connector->mounted != Mounting::board);
}

static void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text, const Test& test) {
    if (!test.component || !test.side || *test.side == Side::harness || test.probes.size() != 2) return;
    const Resolved_component* component = subject.resolved.component(*test.component);
    if (component == nullptr || component->placed == nullptr) return;
    const std::vector<Contact> reached = reached_contacts(subject.resolved, *component);
    if (reached.empty()) return; // nothing says where the component lies
    const auto off = [&](const Value<Contact>& probe) {
      return probe && !holds(reached, *probe) && !is_protective_earth(subject.resolved, *probe) &&
             !off_board(subject.resolved, *probe);
    };
    // A test for a path that must not exist goes from the component to anywhere else.
    const bool wants_no_path = test.expect.kind && *test.expect.kind == Expectation_kind::open;
    if (wants_no_path && !(off(test.probes[0]) && off(test.probes[1]))) return;
    for (const Value<Contact>& probe : test.probes) {
      if (!off(probe)) continue;
      sink.report(
          probe.node,
          fmt::format("{} is no contact of {}, which is reached at {}; correct the probe, or the contacts "
                      "of the component",
                      text_of(*probe), *test.component, listed(reached)));
      sink.relate(component->node, "the component");
    }
  });
}

extern const Rule probes_off_component = {
    .family = Family::pin,
    .severity = Severity::warning,
    .summary = "A test puts a lead where its component does not lie.",
    .check = check,
};

}
