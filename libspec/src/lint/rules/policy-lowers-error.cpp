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
    // Many rules with errors warn, too, of what they doubt, and that may be lowered.
    const std::string_view way =
        can_be_waived(*rule->rule) ? "waive an error where it stands, with the reason, if it must be accepted"
                                   : "it cannot be waived either, as what is refused is not read";
    sink.report(entry.value.node,
                fmt::format("what {} finds for certain stays an error, and `{}` holds only for what it "
                            "doubts, if it doubts anything; {}",
                            entry.id, word_of(*entry.value), way));
  }
}

extern const Rule policy_lowers_error = {
    .family = Family::corpus,
    .severity = Severity::warning,
    .summary = "The policy of a corpus lowers the severity of an error.",
    .check = check,
};

}
