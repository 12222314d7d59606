#include <algorithm>

#include "lint/contacts.h"
#include "lint/rule.h"
#include "physics/thresholds.h"

namespace ohmlore::rules {
namespace {

// A state of each sort, for the message; null where the contact has one state only.
struct Both {
  const Keyed<Value<Contact_state>>::Entry *open = nullptr, *closed = nullptr;
};

Both both_states(const Keyed<Value<Contact_state>>& states) {
  Both both;
  for (const auto& state : states) {
    if (!state.value) continue;
    auto& place = *state.value == Contact_state::open ? both.open : both.closed;
    if (place == nullptr) place = &state;
  }
  return both;
}

// The test, or else the model, expects one state of the contact.
bool expects_a_state(const Test& test, const Resolved_component& component) {
  if (test.expect)
    return test.expect.kind &&
           (*test.expect.kind == Expectation_kind::open || *test.expect.kind == Expectation_kind::closed);
  const auto model = component.get(&Component_type::model);
  return model && model->kind && has_threshold(*model);
}

void check(const Subject& subject, Sink& sink) {
  each_component_test(subject, [&](Text id, const Test& test, const Resolved_component& component) {
    const auto states = component.get(&Component_type::states);
    if (!component.is(Component_kind::switch_) || !states || test.side.node == 0 ||
        *test.side == Side::harness)
      return;
    // Words of what is done before, or watched, may say it.
    if (test.condition || test.before || test.response || test.note) return;
    const auto earthed = [&](const Value<Contact>& probe) {
      return probe && is_earthed(subject.resolved, probe);
    };
    if (std::any_of(test.probes.begin(), test.probes.end(), earthed)) return; // open in every condition
    const Both both = both_states(*states);
    if (both.open == nullptr || both.closed == nullptr || !expects_a_state(test, component)) return;
    sink.report(test.node, fmt::format("{} is closed when {} and open when {}, and {} does not say which "
                                       "it needs; name it in `condition`",
                                       component.id, both.closed->id, both.open->id, id));
    sink.relate(*states.document, states->node, "the states");
  });
}

}

extern const Rule condition_missing = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A test of a switch does not say in which condition the switch must be.",
    .check = check,
    .goes_by_absence = true,
};

}
