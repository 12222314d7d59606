#include <algorithm>
#include <map>

#include "lint/redirects.h"

namespace ohmlore::rules {
namespace {

constexpr std::string_view target = "target", document = "document";

// Of one id speak the document that has it and the redirects that end there: one that is alone with it leads
// nowhere. Several that end at one id speak of it once.
void collect(const Subject& subject, Fact_sink& sink) {
  const auto add = [&](Node_id node, std::string_view kind, Text id, std::string_view said, Text text) {
    const std::string key = fmt::format("{} {}", kind, id);
    if (sink.wants(key, {})) sink.add(node, key, said, text);
  };
  each_redirected_kind(subject, [&](std::string_view kind, const Keyed<Value<Text>>& written) {
    const Redirects redirects = redirects_of(written);
    std::map<Text, const Keyed<Value<Text>>::Entry*> ends; // with the first by id that ends there
    for (const auto& entry : written)
      if (entry.value && !redirects.contains(*entry.value))
        if (const auto [known, fresh] = ends.emplace(*entry.value, &entry);
            !fresh && entry.id < known->second->id)
          known->second = &entry;
    for (const auto& [end, entry] : ends) add(entry->value.node, kind, end, target, entry->id);
  });
  with_own_id(subject, [&](std::string_view kind, const Value<Text>& id, const Keyed<Value<Text>>& written) {
    const bool is_target = std::any_of(written.begin(), written.end(),
                                       [&](const auto& entry) { return entry.value && *entry.value == *id; });
    if (is_target) add(id.node, kind, *id, document, "");
  });
}

void judge(std::span<const Fact> facts, Severity severity, std::vector<Finding>& findings) {
  const Fact& fact = facts.front();
  if (fact.value == target)
    findings.push_back(finding_of(
        fact, severity,
        fmt::format("{} is redirected here, but this corpus has no {}; name a document that it has",
                    fact.text, fact.key)));
}

}

extern const Rule redirect_target_unknown = {
    .family = Family::corpus,
    .severity = Severity::warning, // of which documents a corpus has, a run may be told a part
    .summary = "An id is redirected to one that no document of the corpus has.",
    .collect = collect,
    .judge = judge,
    .judges_lone_facts = true,
};

}
