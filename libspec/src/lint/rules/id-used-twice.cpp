#include "lint/rule.h"

namespace ohmlore::rules {

static void collect(const Subject& subject, Fact_sink& sink) {
  if (const Profile* profile = subject.profile(); profile != nullptr && profile->id)
    sink.add(profile->id.node, fmt::format("profile {}", *profile->id), "", "");
  if (const Part* part = subject.document.part(); part != nullptr && part->id)
    sink.add(part->id.node, fmt::format("part {}", *part->id), "", "");
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
