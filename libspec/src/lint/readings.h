// What tests say of readings: the interval that a healthy part gives, and whether two tests ask the same.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "ohmlore/bands.h"
#include "ohmlore/resolve.h"

namespace ohmlore::rules {

/// Closed contacts and open ones, in ohm: between the two lies a zone in which a contact is neither (common
/// practice, no source).
inline constexpr double closed_at_most = 1, open_at_least = 1e6;

/// What a closed contact reads, in ohm, with the resistor that the part may have in series: that within 10 %
/// (common practice, no source).
Interval closed_contact(const Resolved_component& component);
/// What a contact reads in a state: as its model says of a closed one, else by common practice.
Interval reading_in(const Resolved_component& component, Contact_state state);
/// True also where the leads that were taken off leave less than nothing.
bool is_closed(const Resolved_component& component, double ohm);
/// `over_range`: all that is known is that it reads more than that.
bool is_open(const Resolved_component& component, double ohm, bool over_range);

/// What is left of a blown fuse or a burnt contact conducts no better, in ohm (common practice, no source).
inline constexpr double broken_at_least = 1e3;

/// From where on a reading is that of a broken path, on beside which metal traces and damp conduct: where a
/// closed one is healthy `broken_at_least`, and of a part of wire or a track that is swept from its end ten
/// times what is healthy besides, since none drifts that far (common practice, no source). Infinity where
/// only an open path is, of other parts.
double broken_from(const Resolved_component* component, Interval healthy);

/// From where on it may be: there, and ten times what is healthy of other parts, which may as well have
/// drifted so far (common practice, no source). Infinity where only a least reading is healthy.
double perhaps_broken_from(const Resolved_component* component, Interval healthy);

/// Made to tell a temperature: not a PTC that switches.
inline bool is_temperature_sensor(const Resolved_component& component) {
  return component.is(Component_kind::ntc) || component.is(Component_kind::rtd) ||
         (component.is(Component_kind::ptc) && component.has(&Component_type::type, Ptc_type::silicon));
}

/// A coil, a winding, a transformer.
bool is_wound(const Resolved_component& component);
/// Wound, or a heater of wire.
bool is_of_wire(const Resolved_component& component);

/// Between its contacts a meter reads through diodes, of a rectifier or of what saves power.
bool reads_through_diodes(const Resolved_component& component);

/// A diode lies across its coil.
bool has_diode_across(const Resolved_component& component);
/// Where one may read too little by that: a meter makes some tenths of a volt over a coil of so many ohms, at
/// which the diode begins to conduct (common practice, no source).
bool conducts_beside_the_coil(const Resolved_component& component, double ohm);

/// Where it is open, a lamp or a bleeder conducts on beside it.
bool conducts_when_open(const Resolved_component& component);

/// What is nearly no resistance, in ohm, where a healthy part reads `healthy`: a tenth of that, but at least
/// 1 Ω and at most 10 Ω, which long leads and bad contacts leave of a short (common practice, no source). The
/// most where nothing says what is healthy, as beside a twin.
double near_zero_at_most(const std::optional<Interval>& healthy);

/// What a circuit reads, in ohm, by the sum of resistances or conductances of what `part` says of each of its
/// components. Empty where that of one is not known: a contact in a state that nobody states, a diode.
std::optional<Interval>
circuit_reading(const Resolved& resolved, const Circuit& circuit,
                const std::function<std::optional<Interval>(const Resolved_component&)>& part);

/// Every reading in ohm that an expectation calls healthy, the rounding of what is written allowed for. Empty
/// where it is no plain interval.
std::optional<Interval> healthy_readings(const Expectation& expectation);

/// What a band, or a test for an open or closed path, expects, as it is written: "at least 1 MΩ".
std::string described(const Expectation& expectation, int digits = 4);

/// True where nothing that the tests state distinguishes the state of the appliance: what is unplugged and
/// disconnected, what is done before, and the condition of the component.
bool same_preparation(const Test& a, const Test& b);

/// True where the part must be cold: a thermocouple gives a voltage of its own while it is warm, which the
/// meter takes for a part of the reading.
bool must_be_cold(const Resolved_component& component, const Test& test);

/// True where no note may tell two tests apart: of other years of build, say, which nothing else can state.
bool same_note(const Test& a, const Test& b);

/// The temperature that a test states, in kelvin; empty where it states none.
std::optional<Interval> temperature_of(const Test& test);

/// True where both state the same temperature, or neither states one.
bool same_temperature(const Test& a, const Test& b);

}
