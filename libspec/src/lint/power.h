// Resistances beside what rated voltage and power make of them.
#pragma once

#include "lint/rule.h"

namespace ohmlore::rules {

/// V²/P of a component's rating; empty where it states no voltage and power above 0.
inline std::optional<double> rated_resistance(const Resolved_component& component) {
  const auto volt = component.get(&Component_type::rated_voltage);
  const auto watt = component.get(&Component_type::rated_power);
  if (!volt || !watt || !((*volt)->si > 0) || !((*watt)->si > 0)) return std::nullopt;
  return (*volt)->si * (*volt)->si / (*watt)->si;
}

/// Calls `f(node, band)` for the band of the component's own model at 20 °C, unless that model is a rating
/// itself, and for each band that a test expects across its two contacts at room temperature.
template <class F>
void each_band_at_room(const Subject& subject, const Resolved_component& component, F f) {
  constexpr Interval room = {zero_celsius, zero_celsius + 40};
  const Resistance_model& model = *component.own->model;
  if (model && model.kind && *model.kind != Model_kind::power)
    if (const auto band = model_interval(model, {zero_celsius + 20, zero_celsius + 20})) f(model.node, *band);
  const auto contacts = component.contacts;
  each_test(subject, [&](Text, const Test& test) {
    if (!test.component || *test.component != component.id || contacts.size() != 2 || test.probes.size() != 2)
      return;
    const Value<Contact>&a = test.probes[0], &b = test.probes[1];
    const bool across =
        a && b && ((*a == *contacts[0] && *b == *contacts[1]) || (*a == *contacts[1] && *b == *contacts[0]));
    const auto band = expected_interval(test.expect);
    if (across && band && (!test.expect.at || room.overlaps(kelvin_interval(*test.expect.at))))
      f(test.expect.node, *band);
  });
}

}
