#include <algorithm>

#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {

// A test says something of a component where a lead touches it, or where it is compared with it.
static bool speaks_of(const Resolved& resolved, const Test& test, const Resolved_component& component) {
  const Resolved_component* tested = resolved.component_of(test);
  if (tested == &component || !test.component) return true;
  if (test.expect.with && *test.expect.with == component.id) return true;
  const Reach reached(resolved, component);
  if (reached.empty()) return true; // nothing says where it lies
  return std::any_of(test.probes.begin(), test.probes.end(),
                     [&](const Value<Contact>& probe) { return !probe || reached.holds(*probe); });
}

static void check(const Subject& subject, Sink& sink) {
  each_suspect(subject, [&](const Bound_suspect& suspect) {
    const Resolved_component* component = suspect.component;
    if (component == nullptr) return;
    for (std::size_t i = 0; i < suspect.tests.size(); ++i) {
      const Test* test = suspect.tests[i];
      if (test == nullptr || !*test || speaks_of(subject.resolved, *test, *component)) continue;
      const Value<Text>& id = suspect.own->decided_by[i];
      sink.report(id.node, fmt::format("{} tests {} and touches no contact of {}; name a test of {}", *id,
                                       *test->component, component->id, component->id));
      sink.relate(test->node, "the test");
    }
  });
}

extern const Rule decided_by_other_component = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A suspect is to be decided by a test that does not touch it.",
    .check = check,
};

}
