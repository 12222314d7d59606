#include "lint/power.h"

namespace ohmlore::rules {
namespace {

// The power of a heating appliance may lie 10 % below and 5 % above its rating (IEC 60335-1, from memory),
// and a wire element reads up to 10 % less cold than hot (common practice, no source).
constexpr Interval allowed = {0.9 / 1.05, 1 / 0.9};

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto element = component.get(&Component_type::element);
    if (!component.is(Component_kind::heater) || !element || **element != Heater_element::wire) continue;
    auto rated = rated_resistance(component);
    const auto model = component.get(&Component_type::model);
    if (!rated && model && model->kind && *model->kind == Model_kind::power)
      rated = nominal_resistance(*model, zero_celsius + 20);
    if (!rated) continue;
    each_band_at_room(subject, component, [&](Node_id node, Interval band) {
      if (band.overlaps(Interval{*rated, *rated} * allowed)) return;
      sink.report(
          node,
          fmt::format("{} beside a rating that makes V²/P = {}: a wire element reads {} cold; look at "
                      "voltage, power and resistance, and whether the rating is that of one element",
                      ohm(band), ohm(*rated), ohm(Interval{*rated * allowed.low, *rated * allowed.high})));
    });
  }
}

}

extern const Rule heater_power_disagrees = {
    .family = Family::heater,
    .severity = Severity::warning,
    .summary = "The resistance of a wire heater does not fit its rated voltage and power.",
    .check = check,
};

}
