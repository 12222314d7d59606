#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_suspect(subject, [&](const Bound_suspect& suspect) {
    const Resolved_component* component = suspect.component;
    const auto& [id, key, fault] = *suspect.fault;
    if (component == nullptr || !never_together(component->placed->when, fault.when)) return;
    // Versions are written in many ways: "2.1 and later" has 2.3 in it.
    const bool surely = models_apart(component->placed->when, fault.when);
    sink.report_as(surely ? Severity::error : Severity::warning, suspect.own->component.node,
                   fmt::format("{} holds for {} that do not have {}; name the part that they have, or {}", id,
                               surely ? "models" : "software versions", component->id,
                               surely ? "correct one `when`" : "write the same version in both `when`"));
    sink.relate(component->placed->when.node, fmt::format("which have {}", component->id));
    sink.relate(fault.when.node, fmt::format("for which {} holds", id));
  });
}

extern const Rule suspect_on_other_model = {
    .family = Family::fault,
    .severity = Severity::error,
    .summary = "A fault suspects a component that its models do not have.",
    .check = check,
};

}
