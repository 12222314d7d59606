#include "lint/rule.h"
#include "text/small_letters.h"

namespace ohmlore::rules {

static void collect(const Subject& subject, Fact_sink& sink) {
  const auto add = [&](std::string_view kind, const Value<Text>& id) {
    const std::string key = fmt::format("{} {}", kind, small_letters(*id));
    if (id && sink.wants(key, {subject.document.name()}))
      sink.add(id.node, key, *id, fmt::format("{} {}", kind, *id));
  };
  if (const Profile* profile = subject.profile()) add("profile", profile->id);
  if (const Part* part = subject.document.part()) add("part", part->id);
}

static void judge(std::span<const Fact> facts, Severity severity, std::vector<Finding>& findings) {
  const Fact* first = &facts.front(); // of one id: they are sorted by it
  for (const Fact& fact : facts.subspan(1)) {
    const bool same = fact.value == first->value;
    findings.push_back(
        same
            ? finding_of(
                  fact, severity,
                  fmt::format("{} is the id of another document too; an id names one document of a corpus",
                              fact.text))
            : finding_of(fact, Severity::warning,
                         fmt::format("{} and {} differ by capital letters alone: many disks take their files "
                                     "for one, and keep one of them; give one another id",
                                     first->text, fact.text)));
    findings.back().related.push_back(related_of(*first, same ? "also here" : "the other"));
    if (!same) first = &fact;
  }
}

extern const Rule id_used_twice = {
    .family = Family::corpus,
    .severity = Severity::error,
    .summary = "Two documents of a corpus have one id, or ids that differ by capital letters alone.",
    .collect = collect,
    .judge = judge,
};

}
