#include "lint/rule.h"

namespace ohmlore::rules {

static void collect(const Subject& subject, Fact_sink& sink) {
  const auto add = [&](std::string_view kind, const Value<Text>& id) {
    const std::string key = fmt::format("{} {}", kind, *id);
    if (id && sink.wants(key, {subject.document.name()})) sink.add(id.node, key, "", "");
  };
  if (const Profile* profile = subject.profile()) add("profile", profile->id);
  if (const Part* part = subject.document.part()) add("part", part->id);
}

static void judge(std::span<const Fact> facts, Severity severity, std::vector<Finding>& findings) {
  for (const Fact& fact : facts.subspan(1)) {
    findings.push_back(finding_of(
        fact, severity,
        fmt::format("{} is the id of another document too; an id names one document of a corpus", fact.key)));
    findings.back().related.push_back(related_of(facts.front(), "also here"));
  }
}

extern const Rule id_used_twice = {
    .family = Family::corpus,
    .severity = Severity::error,
    .summary = "Two documents of a corpus have one id.",
    .collect = collect,
    .judge = judge,
};

}
