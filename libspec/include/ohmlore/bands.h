// Which resistances the records allow: intervals that surely hold every part within its stated tolerance.
#pragma once

#include <optional>

#include "ohmlore/model.h"
#include "ohmlore/physics.h"
#include "ohmlore/resolve.h"

namespace ohmlore {

/// How the numbers of a record are taken.
enum class Taken : std::uint8_t {
  nominally, ///< as they stand, no tolerance
  literally, ///< as they stand, with their tolerance; a resistance without one is ± half of its last digit
  /// For proofs: each number ± half of its last digit, as people round nominals and limits too (of rows and
  /// expectations, of the last that surely counts), and a thermistor as far off its one B-value as real ones
  /// are.
  generously,
};

/// A written value: ± half of its last digit, in SI. "10 kΩ" is 9.5 kΩ to 10.5 kΩ.
Interval written_interval(const Quantity& value);

/// Half of the last digit that surely counts, in SI: the zeros at the end of a whole number of Ω, kΩ or MΩ
/// may be rounding, "1300 Ω" for 1283 Ω, down to two digits (how people round; common practice, no source). A
/// zero behind the decimal point is meant: "38.0 Ω"; but "1.300 kΩ" counts as 1300 Ω, as both end with whole
/// ohms.
double half_of_sure_digit(const Quantity& value);

/// What a nominal with its tolerance allows, in SI: nominal - minus to nominal + plus, rounded outward.
/// Without tolerance, the written interval.
Interval toleranced_interval(const Quantity& nominal, const Value<Tolerance>& tolerance,
                             Taken taken = Taken::literally);

/// A table row's band in ohm: min and max, or nominal with tolerance. Empty where it states none, or where
/// the limits are inverted.
std::optional<Interval> row_interval(const Table_row& row, Taken taken = Taken::literally);

/// A stated band's limits in ohm. Empty where the expectation is no band, or its limits are inverted.
std::optional<Interval> expected_interval(const Expectation& expectation, Taken taken = Taken::literally);

/// A thermistor whose curve no resistor inside flattens.
bool is_bare_ntc(const Resolved_component& component);

/// What is known of a part between two rows of its table.
enum class Between_rows : std::uint8_t {
  monotone, ///< that it lies between what the two rows allow
  /// Also that it is a thermistor whose B drifts by `b_drift`, and falls. With x = 1/T and y = ln R, B =
  /// dy/dx and dB/dT = -x² y''. Where dB/dT <= s, y - s ln x is convex, so that it lies below its chord:
  ///   y <= chord(y) + s (ln x - chord(ln x)),
  /// and likewise y >= … where dB/dT >= s; both are reached where B drifts evenly.
  thermistor,
};
Between_rows between_rows(const Resolved_component& component);

/// The resistances in ohm that a model allows at temperatures `kelvin` (one or a range), manufacturing
/// tolerance included. Empty where the model says nothing there: open and closed, a table outside its rows, a
/// model that states only pairs, platinum so near the ends of its range that its tolerance reaches beyond.
/// A copper resistance stated over a range of temperatures holds all over it, and is scaled from the nearest
/// end outside; taken generously, it holds at some temperature of the range.
std::optional<Interval> model_interval(const Resistance_model& model, Interval kelvin,
                                       Taken taken = Taken::literally,
                                       Between_rows between = Between_rows::monotone);

/// The temperatures in kelvin, of those in `within` (finite, above 0) that the model speaks of, at which some
/// part within the model can read a resistance in `ohm`: the least and the greatest, rounded outward by up to
/// 1e-9 K. Empty where there are none. A resistance beyond the last row of a table means no temperature.
std::optional<Interval> model_temperatures(const Resistance_model& model, Interval ohm, Interval within,
                                           Taken taken = Taken::literally,
                                           Between_rows between = Between_rows::monotone);

/// How far B between the temperature of a `beta` model's resistance (`at`) and `kelvin` may lie from the
/// stated one, in kelvin either way: B drifts with temperature, and the stated one was taken between two
/// others.
Interval b_departure(const Resistance_model& model, Interval kelvin);

/// A temperature or range in kelvin, its ends in order: as read, or from half a digit below to half a digit
/// above where taken generously.
Interval kelvin_interval(const Range& at, Taken taken = Taken::literally);

/// The k of R2/R1 = (k + t2)/(k + t1) that a copper model goes by, in kelvin: its own, else its metal's.
double copper_k_of(const Resistance_model& model);
/// All that it may be: the stated one ± half of its last digit, else what is possible of copper or aluminium.
Interval copper_k_interval(const Resistance_model& model);

struct Known_resistance {
  double kelvin, ohm; ///< both above 0
};
/// The resistance in ohm at `kelvin` of a curve through two points, also beyond them. Where it falls as it
/// gets warmer, straight in ln R over 1/T, as thermistor tables are interpolated (EPCOS, "Standardized R/T
/// characteristics"). Where it rises, straight in ln R over ln T: between 0 and 100 °C platinum lies within
/// 0.6 K of that (IEC 60751; over 1/T it is up to 3.4 K beside), and silicon and ceramic bend in the same
/// way.
double resistance_between(Known_resistance one, Known_resistance other, double kelvin);

/// The nominal resistance in ohm of a model at a temperature in kelvin; empty where it has none. Of a table,
/// by the two nearest rows that state a nominal.
std::optional<double> nominal_resistance(const Resistance_model& model, double kelvin);

}
