#include <algorithm>
#include <vector>

#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  std::vector<const Suspect*> undecided;
  bool any_test = false;
  each_fault(subject, [&](Text id, const Fault& fault) {
    const auto decided = [](const Suspect& suspect) { return bool(suspect.decided_by); };
    bool lacking = false;
    const Suspect* wires = nullptr;
    for (const Suspect& suspect : fault.suspects) {
      any_test = any_test || decided(suspect);
      if (!suspect || !suspect.kind || suspect.decided_by || suspect.not_decidable) continue;
      if (*suspect.kind == Suspect_kind::harness) wires = &suspect;
      if (*suspect.kind != Suspect_kind::component || !suspect.component) continue;
      lacking = true;
      undecided.push_back(&suspect);
    }
    if (!lacking && wires != nullptr && !subject.profile()->tests.empty() &&
        std::none_of(fault.suspects.begin(), fault.suspects.end(), decided))
      sink.report_as(Severity::note, wires->node,
                     fmt::format("no test decides anything about code {}, but wires can be measured: name a "
                                 "test of them in `decided_by`, or say in `not_decidable` why none can",
                                 id));
  });
  for (const Suspect* suspect : undecided)
    sink.report(suspect->node,
                fmt::format("no test decides about {}: name the tests in `decided_by`, or say in "
                            "`not_decidable` why a dead test cannot",
                            *suspect->component))
        .value = *suspect->component;
  constexpr std::size_t many = 3; // where no test is named yet, it is one mistake
  if (undecided.size() >= many && !any_test)
    sink.tell_as_one(
        undecided.size(),
        fmt::format(
            "no test decides about {}, nor about any other of {} suspects, as no fault "
            "names a test: name them in `decided_by`, or say in `not_decidable` why a dead test cannot",
            *undecided.front()->component, undecided.size()));
}

extern const Rule fault_undecided = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary =
        "A component is suspected, and neither a test decides about it nor a reason says why none can.",
    .check = check,
    .goes_by_absence = true,
};

}
