#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const List<Waiver>* waivers = subject.document.waivers();
  if (waivers == nullptr || waivers->empty()) return;
  // A newer minor version may bring rules that this program does not have.
  const Severity severity = subject.document.minor() > reader_minor ? Severity::note : Severity::error;
  for (const Waiver& waiver : *waivers)
    if (waiver.rule && find_rule(*waiver.rule) == nullptr)
      sink.report_as(severity, waiver.rule.node,
                     fmt::format("there is no rule {}, so this waiver has no effect{}", quoted(*waiver.rule),
                                 hint_of_rule(*waiver.rule)));
}

extern const Rule waiver_rule_unknown = {
    .family = Family::source,
    .severity = Severity::error,
    .summary = "A waiver names a rule that does not exist.",
    .check = check,
};

}
