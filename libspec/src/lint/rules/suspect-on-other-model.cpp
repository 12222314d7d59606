#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_suspect(subject, [&](const Bound_suspect& suspect) {
    const Resolved_component* component = suspect.component;
    const auto& [id, key, fault] = *suspect.fault;
    if (component == nullptr || !never_together(component->placed->when, fault.when)) return;
    sink.report(suspect.own->component.node,
                fmt::format("{} holds for models or software that do not have {}; name the part that they "
                            "have, or correct one `when`",
                            id, component->id));
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
