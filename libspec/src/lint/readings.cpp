#include "lint/readings.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "lint/rule.h"

namespace ohmlore::rules {

std::optional<Interval> healthy_readings(const Expectation& e) {
  if (!e.kind) return std::nullopt;
  switch (*e.kind) {
  case Expectation_kind::band: return expected_interval(e, Taken::generously);
  case Expectation_kind::open:
  case Expectation_kind::not_short:
    if (!e.above) return std::nullopt;
    return Interval{written_interval(*e.above).low, infinity};
  case Expectation_kind::closed:
    if (!e.below) return std::nullopt;
    return Interval{0, written_interval(*e.below).high};
  default: return std::nullopt;
  }
}

static std::optional<Interval>
circuit_reading(const Resolved& resolved, const Circuit& circuit,
                const std::function<std::optional<Interval>(const Resolved_component&)>& part,
                std::vector<const Circuit*>& entered) {
  constexpr std::size_t most = 32; // no chain has so many circuits in it
  if (!circuit.arrangement || entered.size() == most ||
      std::find(entered.begin(), entered.end(), &circuit) != entered.end())
    return std::nullopt;
  entered.push_back(&circuit);
  const bool series = *circuit.arrangement == Arrangement::series;
  const auto inverse = [](Interval x) { return Interval{1 / x.high, 1 / x.low}; }; // of 0 infinity
  Interval sum;
  for (const Element& element : circuit.elements) {
    std::optional<Interval> ohm;
    if (element.component) {
      if (const Resolved_component* component = resolved.component(*element.component))
        ohm = part(*component);
    } else if (element.circuit) {
      if (const Circuit* nested = resolved.circuit(*element.circuit))
        ohm = circuit_reading(resolved, *nested, part, entered);
    } else if (element.resistance) {
      ohm = toleranced_interval(*element.resistance, element.tolerance);
    }
    if (!ohm || !(ohm->low >= 0)) return std::nullopt;
    sum = sum + (series ? *ohm : inverse(*ohm));
  }
  return series ? sum : inverse(sum);
}

std::optional<Interval>
circuit_reading(const Resolved& resolved, const Circuit& circuit,
                const std::function<std::optional<Interval>(const Resolved_component&)>& part) {
  std::vector<const Circuit*> entered;
  return circuit_reading(resolved, circuit, part, entered);
}

Interval closed_contact(const Resolved_component& component) {
  const auto series = component.get(&Component_type::series_resistance);
  const double ohm = series ? (**series).si : 0;
  return {0.9 * ohm, 1.1 * ohm + closed_at_most};
}

Interval reading_in(const Resolved_component& component, Contact_state state) {
  if (state == Contact_state::open) return {open_at_least, infinity};
  const auto model = component.get(&Component_type::model);
  const bool of_closed = model && model->kind && *model->kind == Model_kind::closed && model->below;
  return of_closed ? Interval{0, model->below->si} : closed_contact(component);
}

bool is_closed(const Resolved_component& component, double ohm) {
  return closed_contact(component).contains(std::max(ohm, 0.0));
}

bool is_open(const Resolved_component& component, double ohm, bool over_range) {
  return over_range ? ohm > closed_contact(component).high : ohm >= open_at_least;
}

bool conducts_when_open(const Resolved_component& component) {
  return component.has(&Component_type::indicator, true) || component.get(&Component_type::bleeder);
}

bool reads_through_diodes(const Resolved_component& component) {
  const auto drive = component.get(&Component_type::drive);
  const auto suppression = component.get(&Component_type::suppression);
  return (drive && (**drive == Drive::rectified || **drive == Drive::economiser)) ||
         (suppression &&
          (**suppression == Suppression::bridge || **suppression == Suppression::series_diode));
}

bool has_diode_across(const Resolved_component& component) {
  return component.has(&Component_type::suppression, Suppression::diode);
}

bool conducts_beside_the_coil(const Resolved_component& component, double ohm) {
  return has_diode_across(component) && ohm >= 300;
}

bool is_wound(const Resolved_component& component) {
  return component.is(Component_kind::coil) || component.is(Component_kind::winding) ||
         component.is(Component_kind::transformer);
}

bool is_of_wire(const Resolved_component& component) {
  return component.is(Component_kind::heater) ? component.has(&Component_type::element, Heater_element::wire)
                                              : is_wound(component);
}

double broken_from(const Resolved_component* component, Interval healthy) {
  if (healthy.low <= 0) {
    const bool track = component != nullptr && component->is(Component_kind::potentiometer);
    const double end = track ? 10 * healthy.high : std::nextafter(healthy.high, infinity);
    return std::max(broken_at_least, end);
  }
  const bool wire = component != nullptr && is_of_wire(*component);
  return wire ? std::max(broken_at_least, 10 * healthy.high) : infinity;
}

double perhaps_broken_from(const Resolved_component* component, Interval healthy) {
  const double surely = broken_from(component, healthy);
  return std::isfinite(surely) ? surely : 10 * healthy.high;
}

double near_zero_at_most(const std::optional<Interval>& healthy) {
  constexpr double most = 10 * closed_at_most;
  return healthy ? std::clamp(healthy->low / 10, closed_at_most, most) : most;
}

std::string described(const Expectation& e, int digits) {
  if (const auto band = expected_interval(e)) return ohm(*band, digits);
  if (*e.kind == Expectation_kind::closed) return fmt::format("at most {}", ohm(e.below->si, digits));
  return fmt::format("at least {}", ohm(e.above->si, digits));
}

static bool same_set(const List<Value<Text>>& a, const List<Value<Text>>& b) {
  std::vector<Text> left, right;
  for (const Value<Text>& text : a) left.push_back(*text);
  for (const Value<Text>& text : b) right.push_back(*text);
  std::sort(left.begin(), left.end());
  std::sort(right.begin(), right.end());
  return left == right;
}

bool same_preparation(const Test& a, const Test& b) {
  return *a.unplug == *b.unplug && *a.condition == *b.condition &&
         same_set(a.disconnect_also, b.disconnect_also) && same_set(a.before, b.before);
}

bool must_be_cold(const Resolved_component& component, const Test& test) {
  return component.is(Component_kind::thermocouple) && !(test.side && *test.side == Side::harness);
}

bool same_note(const Test& a, const Test& b) { return *a.note == *b.note; }

std::optional<Interval> temperature_of(const Test& test) {
  if (!test.expect.at) return std::nullopt;
  return kelvin_interval(*test.expect.at);
}

bool same_temperature(const Test& a, const Test& b) {
  const auto left = temperature_of(a), right = temperature_of(b);
  if (!left || !right) return !left && !right;
  return left->low == right->low && left->high == right->high;
}

}
