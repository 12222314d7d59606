#include <algorithm>

#include "lint/power.h"

namespace ohmlore::rules {
namespace {

// A model speaks of one element; of three phases or stages the rating may be that of up to three together.
constexpr Interval of_one = {1, 1}, of_several = {1, 3};

// A rating is meant to two digits at least: who writes "2 kW" does not mean 2.4 kW.
Interval as_rated(const Quantity& quantity) {
  const Interval written = written_interval(quantity);
  return {std::max(written.low, 0.95 * quantity.si), std::min(written.high, 1.05 * quantity.si)};
}

Interval v_squared_over_p(const Quantity& volt, const Quantity& watt) {
  return resistance_from_power(as_rated(volt), as_rated(watt));
}

// With the tolerance of the model.
std::optional<Interval> ohm_of(const Resistance_model& model) {
  const auto toleranced = model_interval(model, {zero_celsius + 20, zero_celsius + 20});
  const auto nominal = nominal_resistance(model, zero_celsius + 20);
  if (!toleranced || !nominal || !(*nominal > 0)) return std::nullopt;
  return *toleranced * (v_squared_over_p(*model.voltage, *model.power) / Interval{*nominal, *nominal});
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto model = component.get(&Component_type::model);
    const auto volt = component.get(&Component_type::rated_voltage);
    const auto watt = component.get(&Component_type::rated_power);
    const bool own = model.document == &subject.document;
    if (!model || !model->kind || *model->kind != Model_kind::power || !model->voltage || !model->power)
      continue;
    const auto ohm_of_model = ohm_of(*model);
    const auto rated = rated_resistance(component);
    if (!ohm_of_model || !rated) continue;
    // A part's two statements are looked at in the part's own document.
    if (!own && volt.document == model.document && watt.document == model.document) continue;
    const Interval times = may_be_three_phase(subject.resolved, component) ? of_several : of_one;
    if (ohm_of_model->overlaps(v_squared_over_p(**volt, **watt) * times * allowed_by_rating((*watt)->si)))
      continue;
    const Node_id place =
        own ? model->power.node : (watt.document == &subject.document ? watt->node : volt->node);
    sink.report(place, fmt::format("the model's {} at {} make {}, but the rated {} at {} {}; one of the "
                                   "powers or voltages is another element's, or that of several together",
                                   describe(model->power->si, Dimension::power),
                                   describe(model->voltage->si, Dimension::voltage),
                                   ohm(*nominal_resistance(*model, zero_celsius + 20)),
                                   describe((*watt)->si, Dimension::power),
                                   describe((*volt)->si, Dimension::voltage), ohm(*rated)));
    sink.relate(*watt.document, watt->node, "the rated power");
  }
}

}

extern const Rule power_contradicts_rating = {
    .family = Family::heater,
    .severity = Severity::warning,
    .summary = "V²/P of a power model is not that of the rated voltage and power.",
    .check = check,
    .goes_by_absence = true,
};

}
