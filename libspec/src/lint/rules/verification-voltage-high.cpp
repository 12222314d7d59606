#include "lint/rule.h"

namespace ohmlore::rules {

// Residual voltage after disconnection, IEC 60204-1, 6.2.4 (from memory).
static constexpr double highest = 60; // volt

static void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  for (const Hazard& hazard : profile->safety.hazards) {
    if (!hazard.verify_below || hazard.verify_below->si <= highest) continue;
    const auto [stated, harmless] = apart(hazard.verify_below->si, highest, Dimension::voltage);
    sink.report(hazard.verify_below.node,
                fmt::format("{} across a charged capacitor can still hurt; verify below {} or less", stated,
                            harmless));
  }
}

extern const Rule verification_voltage_high = {
    .family = Family::safety,
    .severity = Severity::warning,
    .summary = "A stored charge is verified against a voltage that is not safe to touch.",
    .check = check,
};

}
