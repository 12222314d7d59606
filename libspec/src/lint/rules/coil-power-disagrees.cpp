#include "lint/measured.h"
#include "lint/power.h"
#include "lint/readings.h"

namespace ohmlore::rules {
namespace {

// Makers state the power of a coil cold or at its working temperature, where copper reads up to 1.4 times as
// much, and within about ±15 %. Common practice, no source.
constexpr Interval allowed = {0.85 / 1.4, 1.15};

bool is_fed(const Resolved_component& component, Drive with, Supply_form never_with) {
  if (!component.is(Component_kind::coil) || !component.has(&Component_type::drive, with)) return false;
  const auto volt = component.get(&Component_type::rated_voltage);
  return volt && (*volt)->form != never_with;
}

// A motor of two leads may have another winding behind its run capacitor, which dc does not see: with that it
// takes up twice as much. Common practice, no source.
constexpr double with_auxiliary_winding = 2;

// Not one of several phases or speeds, which a part that was not found may be too.
bool is_one_winding(const Resolved_component& component) {
  return component.is(Component_kind::winding) && !component.lacks_part() &&
         !component.get(&Component_type::connection) &&
         (component.placed == nullptr || component.contacts.size() == 2);
}

// Whatever else limits the current of an ac coil or of a motor, its wire does: what lies behind R takes power
// from the supply and gives none, so that I²R ≤ VI, and it takes up V²/R at most.
void check_most(const Subject& subject, Sink& sink, const Resolved_component& component, double times,
                std::string_view what) {
  const auto rated = rated_resistance(component);
  if (!rated) return;
  const double most = *rated * times;
  each_band_at_room(subject, component, [&](Node_id node, Interval band) {
    if (band.low > most)
      sink.report(node, fmt::format("{} beside a rating that makes V²/P = {}: a {} that takes up its power "
                                    "reads at most {}; look at voltage, power and resistance",
                                    ohm(band), ohm(*rated), what, ohm(most)));
  });
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    if (is_fed(component, Drive::ac, Supply_form::dc) && is_plain_coil(component))
      check_most(subject, sink, component, allowed.high, "coil");
    if (is_one_winding(component))
      check_most(subject, sink, component, with_auxiliary_winding * allowed.high, "winding");
    const bool is_plain = is_fed(component, Drive::dc, Supply_form::ac) && is_plain_as_fed(component);
    const auto rated = is_plain ? rated_resistance(component) : std::nullopt;
    if (!rated) continue;
    const Interval likely = Interval{*rated, *rated} * allowed;
    const bool meter_sees_diode = conducts_beside_the_coil(component, likely.high);
    each_band_at_room(subject, component, [&](Node_id node, Interval band) {
      if (band.overlaps(likely) || (meter_sees_diode && band.high < likely.low)) return;
      sink.report(
          node,
          fmt::format("{} beside a rating that makes V²/P = {}: a dc coil reads {} at room temperature; "
                      "look at voltage, power and resistance",
                      ohm(band), ohm(*rated), ohm(likely)));
    });
  }
}

}

extern const Rule coil_power_disagrees = {
    .family = Family::coil,
    .severity = Severity::warning,
    .summary = "The resistance of a plain coil or winding does not fit its rated voltage and power.",
    .check = check,
    .goes_by_absence = true,
};

}
