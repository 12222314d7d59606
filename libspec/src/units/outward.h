// Limits as they are shown: rounded so that no reading that is right looks wrong.
#pragma once

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string>

#include <fmt/format.h>

#include "ohmlore/interval.h"
#include "ohmlore/quantity.h"

namespace ohmlore {

enum class Towards : std::uint8_t { less, nearest, more };

/// A number with so many significant digits.
inline double rounded(double value, Towards towards, int digits) {
  if (value < 0) {
    const Towards other = towards == Towards::less   ? Towards::more
                          : towards == Towards::more ? Towards::less
                                                     : towards;
    return -rounded(-value, other, digits);
  }
  if (!(value > 0) || std::isinf(value)) return value;
  const int power = static_cast<int>(std::floor(std::log10(value))) - digits + 1;
  const double unit = std::pow(10, power), steps = value / unit;
  const double slack = 1e-6; // of what is decimal and was rounded by the computer alone
  const double whole = towards == Towards::more   ? std::ceil(steps - slack)
                       : towards == Towards::less ? std::floor(steps + slack)
                                                  : std::round(steps);
  // Without a decimal point, which locales write differently.
  return std::strtod(fmt::format("{:.0f}e{}", whole, power).c_str(), nullptr);
}

inline Interval outward(Interval limits, int digits) {
  return {rounded(limits.low, Towards::less, digits), rounded(limits.high, Towards::more, digits)};
}

/// To 4 significant digits; to 5 where less than 1.9 % lies between them, which 4 would widen visibly. These
/// are limits of the part, as made or in service, with no guard band for meter and thermometer in them: a
/// reading that is within never looks outside. What means must reach to decide is rounded to its own safe
/// side (judge.cpp, say_what_settles).
inline Interval outward(Interval limits) {
  const bool narrow =
      limits.low > 0 && std::isfinite(limits.high) && limits.width() < 0.019 * limits.middle();
  return outward(limits, narrow ? 5 : 4);
}

/// One end of that, which has no more digits than are shown.
inline std::string limit_text(double rounded_outward) {
  return describe(rounded_outward, Dimension::resistance, 5);
}

}
