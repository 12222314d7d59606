// How what lies between the leads of a test changes with the temperature, where that is a circuit.
#pragma once

#include <optional>

#include "ohmlore/bands.h"
#include "ohmlore/resolve.h"

namespace ohmlore {

/// What the circuit on whose ends the leads lie reads at a kelvin, in ohm, with each of its parts as it is
/// made. `beside`: also where tables end, which go on there. Empty where no circuit is read so, or one of its
/// parts is not known.
std::optional<Interval> circuit_band(const Resolved& resolved, const Test& test, double kelvin, bool beside);

/// By how much the parts of that circuit change from the temperature at which the test states its limits to
/// any of these: from the least to the most of them. 1 where none is read, or none is known to change.
Interval changes_in_circuit(const Resolved& resolved, const Test& test, Interval kelvin);

}
