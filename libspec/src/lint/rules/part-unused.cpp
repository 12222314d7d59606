#include <algorithm>
#include <set>

#include "lint/facts.h"

namespace ohmlore::rules {
namespace {

// All facts under one key: whether a part is used is known only beside all profiles of the corpus.
void collect(const Subject& subject, Fact_sink& sink) {
  const auto add = [&](Node_id node, std::string_view what, Text id) {
    sink.add(node, "parts", packed({what, id}), "");
  };
  if (subject.document.corpus() != nullptr) add(Document::root, "corpus", "");
  if (const Part* part = subject.document.part(); part != nullptr && part->id)
    add(part->id.node, "part", *part->id);
  if (subject.profile() == nullptr) return;
  add(Document::root, "profile", "");
  std::set<Text> named;
  for (const Resolved_component& component : subject.resolved.components)
    if (component.placed->part && named.insert(*component.placed->part).second)
      add(component.placed->part.node, "use", *component.placed->part);
}

void judge(std::span<const Fact> facts, Severity severity, std::vector<Finding>& findings) {
  std::set<std::string_view> used;
  bool corpus = false;
  std::size_t profiles = 0;
  for (const Fact& fact : facts) {
    const auto fields = unpacked(fact.value);
    if (fields[0] == "use") used.insert(fields[1]);
    if (fields[0] == "corpus") corpus = true;
    if (fields[0] == "profile") ++profiles;
  }
  if (!corpus || profiles == 0) return; // not the whole corpus, or one of parts alone
  for (const Fact& fact : facts) {
    const auto fields = unpacked(fact.value);
    if (fields[0] == "part" && used.count(fields[1]) == 0)
      findings.push_back(
          finding_of(fact, severity,
                     fmt::format("no profile of this corpus names part {} ({} read)", fields[1], profiles)));
  }
}

}

extern const Rule part_unused = {
    .family = Family::corpus,
    .severity = Severity::note,
    .summary = "No profile of the corpus names a part.",
    .collect = collect,
    .judge = judge,
};

}
