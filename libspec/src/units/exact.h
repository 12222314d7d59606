// Decimal numbers and their one rounding to a double.
#pragma once

#include <cstdint>

namespace ohmlore::units {

__extension__ typedef unsigned __int128 Wide_unsigned;

/// A number as written: ±digits · 10^exponent, digits < 10^17.
struct Decimal {
  std::uint64_t digits = 0;
  int exponent = 0;
  bool negative = false;
};

/// How a unit becomes SI: (number · 10^power + offset) · factor / divisor. The offset is in hundredths of the
/// unit: every temperature scale in use has its zero at two decimals (273.15 °C, 459.67 °F below).
struct Scale {
  int power = 0;
  std::uint32_t offset_hundredths = 0;
  std::uint32_t factor = 1;
  std::uint32_t divisor = 1; ///< 1 or 9
};

/// The exact value: ±numerator · 10^exponent / divisor.
struct Fraction {
  Wide_unsigned numerator = 0;
  int exponent = 0;
  std::uint32_t divisor = 1;
  bool negative = false;
};

/// Decimal exponents, prefix included, within which `scaled` and `nearest` do not overflow.
inline constexpr int lowest_exponent = -50;
inline constexpr int highest_exponent = 31;
/// The same for a scale with an offset, which has no prefix.
inline constexpr int lowest_offset_exponent = -30;

Fraction scaled(Decimal number, Scale scale);

/// The double nearest to the fraction, ties to even. Zero is never negative.
double nearest(const Fraction& exact);

}
