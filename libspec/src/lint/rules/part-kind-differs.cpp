#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    if (component.part == nullptr || !component.known_kind) continue;
    const Value<Component_kind>& kind = component.part->part()->component.kind;
    if (!kind || *kind == component.kind()) continue;
    sink.report(
        component.own->kind.node,
        fmt::format("{} is of kind `{}`, but its part {} is of kind `{}`; name another part, or the part's "
                    "kind",
                    component.id, word_of(component.kind()), *component.placed->part, word_of(*kind)));
    sink.relate(*component.part, kind.node, "the part");
  }
}

extern const Rule part_kind_differs = {
    .family = Family::corpus,
    .severity = Severity::error,
    .summary = "A component is of another kind than its part.",
    .check = check,
};

}
