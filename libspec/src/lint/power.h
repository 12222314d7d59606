// Resistances beside what rated voltage and power make of them.
#pragma once

#include <algorithm>

#include "lint/contacts.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {

/// V²/P of a component's rating; empty where it states no voltage and power above 0.
inline std::optional<double> rated_resistance(const Resolved_component& component) {
  const auto volt = component.get(&Component_type::rated_voltage);
  const auto watt = component.get(&Component_type::rated_power);
  if (!volt || !watt || !((*volt)->si > 0) || !((*watt)->si > 0)) return std::nullopt;
  return (*volt)->si * (*volt)->si / (*watt)->si;
}

/// V²/P of a heating appliance over that of its rating. Its power may lie 10 % below, and above by 5 % or 20
/// W, whichever is more, but up to 200 W by 10 % and up to 25 W by 20 % (IEC 60335-1, 10.1, from memory).
/// What 25 W may lie below is not said there: taken as much as above (common practice, no source).
inline Interval allowed_by_rating(double watt) {
  if (watt <= 25) return {1 / 1.2, 1 / 0.8};
  return {1 / (1 + std::clamp(20 / watt, 0.05, 0.1)), 1 / 0.9};
}

/// Above that a rated voltage, in volt, is the one between two lines: from a phase to neutral buildings have
/// 100 V to 347 V, and 400/690 V is of industry (IEC 60038, from memory).
inline constexpr double surely_between_lines = 350;

inline bool is_rated_between_lines(const Resolved_component& component) {
  const auto volt = component.get(&Component_type::rated_voltage);
  return volt && (*volt)->si > surely_between_lines;
}

/// Whether a part may be fed by three phases, which nothing states: at ac, where its windings lie so, or it
/// has more than two contacts that may carry the mains. A part document, which has none, tells by its pairs
/// and its voltage.
inline bool may_be_three_phase(const Resolved& resolved, const Resolved_component& component) {
  const auto volt = component.get(&Component_type::rated_voltage);
  if (volt && (*volt)->form == Supply_form::dc) return false;
  if (const auto connection = component.get(&Component_type::connection))
    return **connection == Connection::star || **connection == Connection::delta ||
           **connection == Connection::isolated;
  if (component.placed == nullptr) return component.own->model->pairs || is_rated_between_lines(component);
  return std::count_if(
             component.contacts.begin(), component.contacts.end(), [&](const Value<Contact>& contact) {
               const auto* own = resolved.circuit_class(contact);
               return (own == nullptr || **own == Circuit_class::mains) && !is_earthed(resolved, contact);
             }) > 2;
}

/// Whether a reading is expected at room temperature, or at a temperature that is not stated.
inline bool at_room(const Expectation& expect) {
  constexpr Interval room = {zero_celsius, zero_celsius + 40};
  return !expect.at || room.overlaps(kelvin_interval(*expect.at));
}

/// What a model says of 20 °C; empty where it is a rating itself.
inline std::optional<Interval> band_at_20(const Resistance_model& model) {
  if (!model || !model.kind || *model.kind == Model_kind::power) return std::nullopt;
  return model_interval(model, {zero_celsius + 20, zero_celsius + 20});
}

/// Calls `f(node, band)` for the band of the component's own model at 20 °C, and for each band that a test
/// expects across its two contacts alone at room temperature.
template <class F>
void each_band_at_room(const Subject& subject, const Resolved_component& component, F f) {
  const Resistance_model& model = *component.own->model;
  if (const auto band = band_at_20(model)) f(model.node, *band);
  each_test_of(subject, component, [&](const Test& test) {
    if (!same_ends(component.contacts, test.probes)) return;
    const auto band = expected_interval(test.expect);
    if (band && at_room(test.expect) && !has_way_past(subject, test)) f(test.expect.node, *band);
  });
}

}
