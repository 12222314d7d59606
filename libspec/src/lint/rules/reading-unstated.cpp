#include <algorithm>

#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// A pair of which terminal-unknown tells: it may be meant for the terminals of the test.
bool names_unknown_terminal(const Resolved_component& component, const Resistance_model& model) {
  if (component.placed == nullptr) return false;
  const auto unknown = [&](const Value<Text>& name) {
    return name && component.placed->terminals.find(*name) == nullptr;
  };
  return std::any_of(model.pairs.begin(), model.pairs.end(),
                     [&](const Terminal_pair& pair) { return unknown(pair.from) || unknown(pair.to); });
}

bool has_pair_for(const Test& test, const Resolved_component& component, const Resistance_model& model) {
  const bool known = has_both_ends(test.probes);
  return !known || names_unknown_terminal(component, model) || !on_own_contacts(test, component) ||
         pair_between(component, model, *test.probes[0], *test.probes[1]) != nullptr;
}

// Whether a reading of the test has something to be held against.
bool says_what_is_healthy(const Test& test, const Resolved_component& component) {
  if (test.expect || state_between_probes(component, test)) return true;
  const auto model = component.get(&Component_type::model);
  return model && (!model->pairs || has_pair_for(test, component, *model));
}

void check(const Subject& subject, Sink& sink) {
  each_component_test(subject, [&](Text id, const Test& test, const Resolved_component& component) {
    // What is watched may be all that is known.
    if (component.lacks_part() || test.response || says_what_is_healthy(test, component)) return;
    sink.report(
        test.node,
        fmt::format("nothing says what a healthy {} reads in {}, so that no reading can be judged; give the "
                    "test an `expect`, or {} a `model` that speaks of these contacts",
                    component.id, id, component.part != nullptr ? "its part" : "the component"));
  });
}

}

extern const Rule reading_unstated = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "Nothing says what a healthy part reads in a test.",
    .check = check,
    .goes_by_absence = true,
};

}
