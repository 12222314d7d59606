// Which resistances the records allow: intervals that surely hold every part within its stated tolerance.
#pragma once

#include <optional>

#include "ohmlore/model.h"
#include "ohmlore/physics.h"

namespace ohmlore {

/// A written value: ± half of its last digit, in SI. "10 kΩ" is 9.5 kΩ to 10.5 kΩ.
Interval written_interval(const Quantity& value);

/// What a nominal with its tolerance allows, in SI: nominal - minus to nominal + plus, rounded outward.
/// Without tolerance, the written interval.
Interval toleranced_interval(const Quantity& nominal, const Value<Tolerance>& tolerance);

/// A table row's band in ohm: min and max, or nominal with tolerance. Empty where it states none, or where
/// the limits are inverted.
std::optional<Interval> row_interval(const Table_row& row);

/// A stated band's limits in ohm. Empty where the expectation is no band, or its limits are inverted.
std::optional<Interval> expected_interval(const Expectation& expectation);

/// The resistances in ohm that a model allows at temperatures `kelvin` (one or a range), manufacturing
/// tolerance included. Empty where the model says nothing there: open and closed, a table outside its rows, a
/// model that states only pairs. Between two rows of a table, what a monotone curve may reach.
std::optional<Interval> model_interval(const Resistance_model& model, Interval kelvin);

/// A temperature or range as written, in kelvin, its ends in order.
Interval kelvin_interval(const Range& at);

/// The nominal resistance in ohm of a model at a temperature in kelvin; empty where it has none.
std::optional<double> nominal_resistance(const Resistance_model& model, double kelvin);

}
