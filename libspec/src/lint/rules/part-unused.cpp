#include "lint/facts.h"

namespace ohmlore::rules {
namespace {

// Of one id speak the part and the profiles that name it, be it by an old id: a part that is alone with it is
// used by none.
void collect(const Subject& subject, Fact_sink& sink) {
  const auto add = [&](Node_id node, Text id, std::string_view what) {
    if (sink.wants(id, {})) sink.add(node, id, what, "");
  };
  if (const Part* part = subject.document.part(); part != nullptr && part->id)
    add(part->id.node, *part->id, "part");
  if (subject.profile() == nullptr) return;
  for (const Resolved_component& component : subject.resolved.components)
    if (const Value<Text>& named = component.placed->part)
      add(named.node, component.part != nullptr ? *component.part->part()->id : *named, "use");
  // What could not be read may name any of them.
  if (const Parts* parts = subject.resolved.surroundings.parts; parts && !subject.document.complete())
    for (const auto& [id, part] : *parts) add(Document::root, id, "use");
}

void judge(std::span<const Fact> facts, Severity severity, std::vector<Finding>& findings) {
  const Fact& fact = facts.front();
  if (fact.value == "part")
    findings.push_back(finding_of(
        fact, severity,
        fmt::format(
            "no profile of this corpus names part {}; name it in `part` of a component, or remove this file",
            fact.key)));
}

}

extern const Rule part_unused = {
    .family = Family::corpus,
    .severity = Severity::note,
    .summary = "No profile of the corpus names a part.",
    .collect = collect,
    .judge = judge,
    .judges_lone_facts = true,
};

}
