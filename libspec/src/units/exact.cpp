#include "units/exact.h"

#include <array>
#include <bit>
#include <cfloat>
#include <cmath>

namespace ohmlore::units {
namespace {

// Every power of ten up to 10^22 is exactly a double: 5^22 < 2^53.
constexpr std::array<double, 23> powers_of_ten = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                  1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                                  1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
constexpr Wide_unsigned exact_integer_limit = Wide_unsigned{1} << 53;

// An unsigned integer of 320 bits. The largest that occurs is a numerator of 128 bits times 10^31 (231 bits)
// or a divisor 9 · 10^51 (173 bits), shifted so that it is at most 64 bits longer than the other one.
struct Big {
  std::array<std::uint64_t, 5> limb = {};

  explicit Big(Wide_unsigned value)
      : limb{static_cast<std::uint64_t>(value), static_cast<std::uint64_t>(value >> 64)} {}

  void multiply(std::uint64_t factor) {
    Wide_unsigned carry = 0;
    for (auto& part : limb) {
      carry += Wide_unsigned{part} * factor;
      part = static_cast<std::uint64_t>(carry);
      carry >>= 64;
    }
  }

  void multiply_by_power_of_ten(int power) {
    for (; power >= 16; power -= 16) multiply(10'000'000'000'000'000);
    for (; power >= 4; power -= 4) multiply(10'000);
    for (; power > 0; --power) multiply(10);
  }

  int bits() const {
    for (int i = 4; i >= 0; --i)
      if (const auto part = limb[static_cast<std::size_t>(i)]; part != 0)
        return 64 * i + static_cast<int>(std::bit_width(part));
    return 0;
  }

  void shift_left(int count) {
    for (; count >= 32; count -= 32) multiply(std::uint64_t{1} << 32);
    multiply(std::uint64_t{1} << count);
  }

  void halve() {
    for (std::size_t i = 0; i < 5; ++i) limb[i] = (limb[i] >> 1) | (i < 4 ? limb[i + 1] << 63 : 0);
  }

  bool at_least(const Big& other) const {
    for (std::size_t i = 5; i-- > 0;)
      if (limb[i] != other.limb[i]) return limb[i] > other.limb[i];
    return true;
  }

  void subtract(const Big& other) {
    std::uint64_t borrow = 0;
    for (std::size_t i = 0; i < 5; ++i) {
      const Wide_unsigned difference = Wide_unsigned{limb[i]} - other.limb[i] - borrow;
      limb[i] = static_cast<std::uint64_t>(difference);
      borrow = (difference >> 64) != 0;
    }
  }
};

// Long division to 63 or 64 bits of quotient. The remainder goes into the lowest bit, far below the last bit
// of a double, so that the one rounding is the conversion to double. Apart, since hardly any number needs it.
[[gnu::noinline]] double divide(const Fraction& exact) {
  Big numerator(exact.numerator);
  Big divisor(exact.divisor);
  numerator.multiply_by_power_of_ten(exact.exponent);
  divisor.multiply_by_power_of_ten(-exact.exponent);

  const int shift = 63 - (numerator.bits() - divisor.bits());
  numerator.shift_left(shift > 0 ? shift : 0);
  divisor.shift_left((shift < 0 ? -shift : 0) + 63);
  std::uint64_t quotient = 0;
  for (int bit = 63; bit >= 0; --bit) {
    if (numerator.at_least(divisor)) {
      numerator.subtract(divisor);
      quotient |= std::uint64_t{1} << bit;
    }
    divisor.halve();
  }
  if (numerator.bits() != 0) quotient |= 1;
  return std::ldexp(static_cast<double>(quotient), -shift);
}

double magnitude(const Fraction& exact) {
  if (exact.numerator == 0) return 0;
  // One operation on two exact doubles is rounded once by IEEE 754; not so where the machine computes in more
  // than double precision.
  if (FLT_EVAL_METHOD == 0 && exact.numerator < exact_integer_limit) {
    const auto numerator = static_cast<double>(static_cast<std::uint64_t>(exact.numerator));
    const auto power = static_cast<std::size_t>(exact.exponent < 0 ? -exact.exponent : exact.exponent);
    if (exact.exponent >= 0 && exact.divisor == 1 && power <= 22) return numerator * powers_of_ten[power];
    // 9 · 5^20 < 2^53: the product of divisor and power is exact too.
    if (exact.exponent <= 0 && power <= (exact.divisor == 1 ? 22u : 20u))
      return numerator / (powers_of_ten[power] * exact.divisor);
  }
  return divide(exact);
}

Wide_unsigned times_power_of_ten(Wide_unsigned value, int power) {
  for (; power > 0; --power) value *= 10;
  return value;
}

}

Fraction scaled(Decimal number, Scale scale) {
  Fraction exact{number.digits, number.exponent + scale.power, scale.divisor, number.negative};
  if (scale.offset_hundredths != 0) {
    const int common = exact.exponent < -2 ? exact.exponent : -2;
    const auto written = times_power_of_ten(exact.numerator, exact.exponent - common);
    const auto offset = times_power_of_ten(scale.offset_hundredths, -2 - common);
    exact.exponent = common;
    if (!number.negative) {
      exact.numerator = offset + written;
    } else {
      exact.negative = written > offset;
      exact.numerator = exact.negative ? written - offset : offset - written;
    }
  }
  exact.numerator *= scale.factor;
  return exact;
}

double nearest(const Fraction& exact) {
  const double value = magnitude(exact);
  return exact.negative && value != 0 ? -value : value;
}

}
