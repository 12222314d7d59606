#include <set>

#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_fault(subject, [&](Text, const Fault& fault) {
    if (!fault.raised.below && !fault.raised.above) return;
    if (fault.raised.component) return;
    std::set<Text> suspected;
    for (const Suspect& suspect : fault.suspects)
      if (suspect.component) suspected.insert(*suspect.component);
    if (suspected.size() == 1) return;
    sink.report(fault.raised.node,
                suspected.empty()
                    ? std::string("no component is suspected, so that nothing says which reading raises it; "
                                  "name the sensor in `component`")
                    : fmt::format("{} are suspected, and any of them may be the one whose reading raises it; "
                                  "name the sensor in `component`",
                                  listed(suspected)));
  });
}

extern const Rule raised_sensor_unclear = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "Nothing says which sensor's reading raises a code.",
    .check = check,
    .goes_by_absence = true,
};

}
