// What a test says of the resistance of its component, beside what the component's model says.
#pragma once

#include <optional>

#include "ohmlore/bands.h"
#include "ohmlore/lint.h"

namespace ohmlore::rules {

/// A band that is expected between the two contacts of a component, so that its model speaks of the same.
struct Measured {
  const Resolved_component* component = nullptr;
  In_document<Resistance_model> model;
  const Expectation* expect = nullptr;
  std::optional<Interval> kelvin; ///< as written; empty where none is stated
  /// Nothing else in the profile lies between the two contacts, and the part conducts like a resistor: what
  /// the model says must be read there.
  bool alone = false;
  bool on_the_part = false; ///< measured on its own terminals, without the harness
};

/// Empty where the test states no band, or where model and band need not be the same: other contacts, a
/// condition, the wires alone, a circuit or a part in parallel, a part that is not known or has no model.
std::optional<Measured> measured(const Subject& subject, const Test& test);

/// What leads and their contact may add to a reading, in ohm: twice what test leads have at most. A band may
/// have been stated with or without it.
inline constexpr double most_leads = 1;

/// Whether no healthy part can read within a band, given all that one may have at that temperature. What lies
/// in series, leads and harness, can only add to a reading, and of the harness nobody knows how much.
inline bool surely_missed(const Measured& measured, Interval band, Interval healthy) {
  if (!measured.alone) return false;
  return band.high < healthy.low || (measured.on_the_part && band.low > healthy.high + most_leads);
}

/// The temperatures at which to ask the model: the stated ones; 20 °C where the model is the same at all;
/// empty where none is stated, or where the model speaks of others only.
std::optional<Interval> temperature_for(const Measured& measured);

/// A coil without rectifier, electronics or series part, so that dc sees the copper alone.
bool is_plain_coil(const Resolved_component& component);

}
