#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text, const Test& test) {
    if (!test.condition || !test.component) return;
    const Resolved_component* component = subject.resolved.component_of(test);
    if (component == nullptr || !component->is(Component_kind::switch_)) return; // only switches have states
    if (may_have(*component, "states", component->own->states)) return;
    const auto states = component->get(&Component_type::states);
    if (!states) {
      if (!subject.document.complete()) return; // the part that could not be read may have them
      sink.report_as(Severity::warning, test.condition.node,
                     fmt::format("{} has no `states` that say what its contact does when {}; add them",
                                 component->id, *test.condition));
      sink.relate(component->node, "the component");
      return;
    }
    if (states->empty() || states->find(*test.condition) != nullptr) return; // none: count-out-of-limits
    const auto ids = ids_of(*states);
    sink.report(test.condition.node, fmt::format("{} has no state {}, only {}{}", component->id,
                                                 *test.condition, listed(ids), hint(*test.condition, ids)));
    sink.relate(*states.document, states->node, fmt::format("the states of {}", component->id));
  });
}

extern const Rule condition_unknown = {
    .family = Family::fault,
    .severity = Severity::error,
    .summary = "A test names a condition that its component does not have among its states.",
    .check = check,
};

}
