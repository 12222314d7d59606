#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Corpus* corpus = subject.document.corpus();
  if (corpus == nullptr) return;
  for (const auto& entry : corpus->policy.severities) {
    const Rule_entry* rule = find_rule(entry.id);
    if (rule == nullptr || rule->rule->severity != Severity::error || rule->rule->is_of_the_house ||
        !entry.value || *entry.value == Severity::error)
      continue;
    const std::string way = can_be_waived(*rule->rule)
                                ? "waive it where it stands, with the reason, if it must be accepted"
                                : "it cannot be waived either, as what is refused is not read";
    sink.report(entry.value.node,
                fmt::format("{} finds only what is wrong for certain, so it stays an error and `{}` has no "
                            "effect; {}",
                            entry.id, word_of(*entry.value), way));
  }
}

extern const Rule policy_lowers_error = {
    .family = Family::corpus,
    .severity = Severity::error,
    .summary = "The policy of a corpus lowers the severity of an error.",
    .check = check,
};

}
