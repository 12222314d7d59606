#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Corpus* corpus = subject.document.corpus();
  if (corpus == nullptr) return;
  // A newer minor version may bring rules that this program does not have.
  const Severity severity = subject.document.minor() > reader_minor ? Severity::note : Severity::error;
  for (const auto& entry : corpus->policy.severities)
    if (find_rule(entry.id) == nullptr)
      sink.report_as(severity, entry.key,
                     fmt::format("there is no rule {}, so this line has no effect{}", quoted(entry.id),
                                 hint_of_rule(entry.id)));
}

extern const Rule policy_rule_unknown = {
    .family = Family::corpus,
    .severity = Severity::error,
    .summary = "The policy of a corpus names a rule that does not exist.",
    .check = check,
};

}
