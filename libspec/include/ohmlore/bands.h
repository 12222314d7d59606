// Which resistances the records allow: intervals that surely hold every part within its stated tolerance.
#pragma once

#include <optional>

#include "ohmlore/model.h"
#include "ohmlore/physics.h"

namespace ohmlore {

/// How the numbers of a record are taken.
enum class Taken : std::uint8_t {
  nominally, ///< as they stand, no tolerance
  literally, ///< as they stand, with their tolerance; a resistance without one is ± half of its last digit
  /// For proofs: each number ± half of its last digit, as people round nominals and limits too (of rows and
  /// expectations, zeros at the end of a whole number count as rounding, down to two digits), and a
  /// thermistor as far off its one B-value as real ones are.
  generously,
};

/// A written value: ± half of its last digit, in SI. "10 kΩ" is 9.5 kΩ to 10.5 kΩ.
Interval written_interval(const Quantity& value);

/// What a nominal with its tolerance allows, in SI: nominal - minus to nominal + plus, rounded outward.
/// Without tolerance, the written interval.
Interval toleranced_interval(const Quantity& nominal, const Value<Tolerance>& tolerance,
                             Taken taken = Taken::literally);

/// A table row's band in ohm: min and max, or nominal with tolerance. Empty where it states none, or where
/// the limits are inverted.
std::optional<Interval> row_interval(const Table_row& row, Taken taken = Taken::literally);

/// A stated band's limits in ohm. Empty where the expectation is no band, or its limits are inverted.
std::optional<Interval> expected_interval(const Expectation& expectation, Taken taken = Taken::literally);

/// The resistances in ohm that a model allows at temperatures `kelvin` (one or a range), manufacturing
/// tolerance included. Empty where the model says nothing there: open and closed, a table outside its rows, a
/// model that states only pairs, platinum so near the ends of its range that its tolerance reaches beyond.
/// Between two rows of a table, what a monotone curve may reach. A copper resistance stated over a range of
/// temperatures holds all over it, and is scaled from the nearest end outside; taken generously, it holds at
/// some temperature of the range.
std::optional<Interval> model_interval(const Resistance_model& model, Interval kelvin,
                                       Taken taken = Taken::literally);

/// A temperature or range in kelvin, its ends in order: as read, or from half a digit below to half a digit
/// above where taken generously.
Interval kelvin_interval(const Range& at, Taken taken = Taken::literally);

/// The k of R2/R1 = (k + t2)/(k + t1) that a copper model goes by, in kelvin: its own, else its metal's.
double copper_k_of(const Resistance_model& model);

/// The nominal resistance in ohm of a model at a temperature in kelvin; empty where it has none. Between two
/// rows of a table, straight in ln R over 1/T.
std::optional<double> nominal_resistance(const Resistance_model& model, double kelvin);

}
