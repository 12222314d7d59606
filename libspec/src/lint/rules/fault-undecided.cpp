#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Document& document = subject.document;
  each_fault(subject, [&](Text id, const Fault& fault) {
    const auto decided = [&](const Suspect& suspect) {
      return stated(document, suspect, "decided_by", suspect.decided_by);
    };
    bool lacking = false;
    for (const Suspect& suspect : fault.suspects) {
      if (!suspect || !suspect.kind || *suspect.kind != Suspect_kind::component || !suspect.component)
        continue;
      if (decided(suspect) || stated(document, suspect, "not_decidable", suspect.not_decidable)) continue;
      lacking = true;
      sink.report(suspect.node,
                  fmt::format("no test decides about {}: name the tests in `decided_by`, or say in "
                              "`not_decidable` why a dead test cannot",
                              *suspect.component));
    }
    if (!lacking && !subject.profile()->tests.empty() && !fault.suspects.empty() &&
        std::none_of(fault.suspects.begin(), fault.suspects.end(), decided))
      sink.report_as(
          Severity::note, fault.node,
          fmt::format("no test decides anything about code {}; all that it suspects is for other means", id));
  });
}

extern const Rule fault_undecided = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary =
        "A component is suspected, and neither a test decides about it nor a reason says why none can.",
    .check = check,
};

}
