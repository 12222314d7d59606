#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  for (const Hazard& hazard : profile->safety.hazards)
    if (hazard.verify_below && hazard.verify_below->form == Supply_form::ac)
      sink.report(
          hazard.verify_below.node,
          fmt::format("a stored charge is a dc voltage, and a detector set to ac shows none; write \"{} dc\"",
                      describe(hazard.verify_below->si, Dimension::voltage)));
}

extern const Rule charge_verified_as_ac = {
    .family = Family::safety,
    .severity = Severity::warning,
    .summary = "A stored charge is verified as an ac voltage, which it is not.",
    .check = check,
};

}
