// B-values: the one that a table states beside the one that its rows give, and that of coefficients.
#pragma once

#include "lint/rows.h"
#include "lint/rule.h"

namespace ohmlore::rules {

/// A B-value that no NTC has, in as many digits as tell it from the limit.
inline std::string beyond_limits(double b) {
  return apart(b, b < possible_b.low ? possible_b.low : possible_b.high, Dimension::temperature_difference)
      .first;
}

/// What a thermistor may have at 25 °C, in ohm: inrush limiters begin at some 0.5 Ω, and a sensor of 100 kΩ
/// at 300 °C with B 8000 K has 40 GΩ. Common practice, no source.
inline constexpr Interval possible_at_25 = {0.1, 100e9};

/// 1/B of a Steinhart-Hart curve, b + 3 c (ln R)², by its two numbers as they are written.
inline Interval inverse_b(const Resistance_model& model, Interval logarithm_squared) {
  return written_interval(*model.b) + Interval{3, 3} * written_interval(*model.c) * logarithm_squared;
}

/// A table with a B-value, and what its rows give between the same two temperatures.
struct Stated_b {
  Interval stated; ///< half of its last digit either way, without tolerance
  Interval of_rows;
  double from = 0, to = 0;   ///< kelvin
  bool interpolated = false; ///< no row stands at one of the two
};
std::optional<Stated_b> stated_b(const Resistance_model& model);

/// Two temperatures between which the rows give the stated B, where those that are stated give another one.
struct Other_references {
  double from = 0, to = 0; ///< kelvin
  Interval of_rows;
};
std::optional<Other_references> other_references(const Resistance_model& model, const Stated_b& b);

/// "B25/85", of two temperatures in kelvin.
std::string b_name(double from, double to);
/// "3977 K", or the ends where they differ in four digits.
std::string kelvin(Interval b);

}
