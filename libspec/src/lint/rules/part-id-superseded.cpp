#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    if (component.placed == nullptr || component.part == nullptr) continue;
    const Value<Text>& named = component.placed->part;
    const Text id = *component.part->part()->id;
    if (*named == id) continue;
    Finding& finding =
        sink.report(named.node, fmt::format("part {} has the id {} now; write that", *named, id));
    const Node& n = subject.document.node(named.node);
    finding.fixes.push_back(
        {fmt::format("write \"{}\"", id), Fix_safety::safe, {{n.begin, n.end, fmt::format("\"{}\"", id)}}});
  }
}

extern const Rule part_id_superseded = {
    .family = Family::corpus,
    .severity = Severity::note,
    .summary = "A component names its part by an id that the part had before.",
    .check = check,
};

}
