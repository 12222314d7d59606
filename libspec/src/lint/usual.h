// What parts of a kind usually have.
#pragma once

#include <string_view>

#include "lint/readings.h"
#include "ohmlore/interval.h"
#include "ohmlore/physics.h"
#include "ohmlore/resolve.h"

namespace ohmlore::rules {

/// What is usual, in SI. Common practice, no source: far wider than any part that a handheld meter tests on a
/// heating appliance, so that what lies outside and comes inside with another prefix is a slip of the prefix.
struct Usual {
  Interval range;
  std::string_view of; // for messages: "an NTC sensor"
};

/// A component between its own contacts, at room temperature; null where nothing is usual.
inline const Usual* usual_component(const Resolved_component& component) {
  constexpr double kilo = 1e3, mega = 1e6;
  static constexpr Usual ntc = {{200, 1 * mega}, "an NTC at room temperature"};
  static constexpr Usual ptc = {{5, 20 * kilo}, "a PTC at room temperature"};
  static constexpr Usual rtd = {{5, 15 * kilo},
                                "a resistance thermometer"}; // Cu10 and Pt10000, 0 °C to 50 °C
  static constexpr Usual resistor = {{0.1, 100 * mega}, "a resistor"};
  static constexpr Usual coil = {{0.5, 50 * kilo}, "a coil"};
  // The magnet of a flame failure device, which a thermocouple feeds with some 20 mV.
  static constexpr Usual coil_or_magnet = {{5e-3, 50 * kilo}, "a coil"};
  static constexpr Usual winding = {{0.05, 50 * kilo}, "a winding"};
  static constexpr Usual heater = {{1, 50 * kilo}, "a heating element"};
  static constexpr Usual potentiometer = {{50, 10 * mega}, "a potentiometer"};
  switch (component.kind()) {
  case Component_kind::ntc: return &ntc;
  case Component_kind::ptc: return &ptc;
  case Component_kind::rtd: return &rtd;
  case Component_kind::resistor:
  case Component_kind::coding: return &resistor;
  case Component_kind::coil: {
    const auto volt = component.get(&Component_type::rated_voltage);
    return volt && (*volt)->si >= 1 ? &coil : &coil_or_magnet;
  }
  case Component_kind::winding: return &winding;
  case Component_kind::heater: return &heater;
  case Component_kind::potentiometer: return &potentiometer;
  default: return nullptr;
  }
}

inline constexpr Interval room = {zero_celsius, zero_celsius + 50};

/// The same at these kelvin: of what changes much with temperature only what it has in a room is usual.
inline const Usual* usual_at(const Resolved_component& component, Interval kelvin) {
  const bool changes = component.is(Component_kind::ntc) || component.is(Component_kind::ptc) ||
                       component.is(Component_kind::rtd) ||
                       (component.is(Component_kind::heater) && !is_of_wire(component));
  return changes && !room.overlaps(kelvin) ? nullptr : usual_component(component);
}

}
