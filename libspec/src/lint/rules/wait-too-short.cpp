#include <numbers>

#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// The peak of a 230 V supply: what a capacitor is charged to at most, unless its own rating is lower.
constexpr double mains_peak = 230 * std::numbers::sqrt2;

// Time in seconds until a capacitor is discharged through its bleeder to a voltage: V = V0 e^(-t/RC). Empty
// where one of the values is not stated.
std::optional<double> time_to_discharge(const Resolved_component& capacitor, double volt) {
  const auto farad = capacitor.get(&Component_type::capacitance);
  const auto bleeder = capacitor.get(&Component_type::bleeder);
  const auto rated = capacitor.get(&Component_type::rated_voltage);
  if (!farad || !bleeder || !rated || !(volt > 0)) return std::nullopt;
  const double peak = (*rated)->form == Supply_form::dc ? 1 : std::numbers::sqrt2;
  const double charged = std::min(peak * (*rated)->si, mains_peak);
  if (charged <= volt) return 0;
  return (*bleeder)->si * (*farad)->si * std::log(charged / volt);
}

void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  for (const Hazard& hazard : profile->safety.hazards) {
    if (!hazard.wait) continue;
    if (hazard.wait->si <= 0) {
      sink.report(hazard.wait.node,
                  hazard.kind && *hazard.kind == Hazard_kind::stored_charge
                      ? "no charge is gone at once; state how long the capacitor takes, and verify it gone"
                      : "nothing hot is cold at once; state how long it takes");
      continue;
    }
    const auto* capacitor = hazard.component ? subject.resolved.component(*hazard.component) : nullptr;
    if (capacitor == nullptr || !hazard.verify_below) continue;
    const auto needed = time_to_discharge(*capacitor, hazard.verify_below->si);
    if (!needed || hazard.wait->si >= *needed) continue;
    // Up to a whole second: who states it must wait long enough.
    const std::string at_least = describe(std::ceil(*needed), Dimension::time, 17);
    sink.report(
        hazard.wait.node,
        fmt::format("{} with {} takes {} to fall below {}, longer than the {} to wait; state {} at least",
                    describe(capacitor->get(&Component_type::capacitance)->value.si, Dimension::capacitance),
                    ohm(capacitor->get(&Component_type::bleeder)->value.si), at_least,
                    describe(hazard.verify_below->si, Dimension::voltage),
                    describe(hazard.wait->si, Dimension::time), at_least));
    sink.relate(*capacitor->document, capacitor->node, "the capacitor");
  }
}

}

extern const Rule wait_too_short = {
    .family = Family::safety,
    .severity = Severity::warning,
    .summary = "The wait after isolation is shorter than a charge takes to fall.",
    .check = check,
};

}
