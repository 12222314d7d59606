#include "lint/redirects.h"

namespace ohmlore::rules {
namespace {

constexpr std::string_view redirect = "redirect", document = "document";

void collect(const Subject& subject, Fact_sink& sink) {
  const auto add = [&](Node_id node, std::string_view kind, Text id, std::string_view said, Text text) {
    const std::string key = fmt::format("{} {}", kind, id);
    if (sink.wants(key, {said})) sink.add(node, key, said, text);
  };
  each_redirected_kind(subject, [&](std::string_view kind, const Keyed<Value<Text>>& written) {
    for (const auto& entry : written)
      if (entry.value) add(entry.key, kind, entry.id, redirect, *entry.value);
  });
  with_own_id(subject, [&](std::string_view kind, const Value<Text>& id, const Keyed<Value<Text>>& written) {
    if (written.find(*id) != nullptr) add(id.node, kind, *id, document, "");
  });
}

// Sorted by value: documents come first.
void judge(std::span<const Fact> facts, Severity severity, std::vector<Finding>& findings) {
  if (facts.front().value != document) return;
  for (const Fact& fact : facts) {
    if (fact.value != redirect) continue;
    findings.push_back(
        finding_of(fact, severity,
                   fmt::format("{} is redirected to {}, but it still exists; remove the document "
                               "or the redirect, which has no effect",
                               fact.key, fact.text)));
    findings.back().related.push_back(related_of(facts.front(), "the document of that id"));
  }
}

}

extern const Rule redirect_of_existing = {
    .family = Family::corpus,
    .severity = Severity::error,
    .summary = "An id is redirected, but a document still has it.",
    .collect = collect,
    .judge = judge,
};

}
