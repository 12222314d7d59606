// Arithmetic on intervals that surely hold the exact result.
#pragma once

#include <algorithm>
#include <bit>
#include <cstdint>
#include <limits>

namespace ohmlore {

inline constexpr double infinity = std::numeric_limits<double>::infinity();

/// A closed interval, low <= high. Every function here that returns one encloses each true value that exact
/// arithmetic gives for some choice of inputs inside their intervals. Inputs are the doubles given: whoever
/// has a decimal that is no double widens it first. Bounds must not be NaN; a bound may be infinite.
struct Interval {
  double low = 0;
  double high = 0;
  constexpr bool contains(double x) const { return low <= x && x <= high; }
  constexpr bool contains(Interval inner) const { return low <= inner.low && inner.high <= high; }
  constexpr bool overlaps(Interval other) const { return low <= other.high && other.low <= high; }
  constexpr double width() const { return high - low; }
  constexpr double middle() const { return low + (high - low) / 2; }
};

namespace detail {

// The next double towards +∞, as std::nextafter gives it, in a few instructions: the doubles of one sign are
// in the order of their bits. Mostly they are positive and finite, and have such a neighbour.
inline constexpr std::uint64_t bits_of_infinity = std::bit_cast<std::uint64_t>(infinity);
inline double above(double x) {
  const auto bits = std::bit_cast<std::uint64_t>(x);
  if (bits - 1 < bits_of_infinity - 1) return std::bit_cast<double>(bits + 1);
  if (!(x < infinity)) return x;
  if (x == 0) return std::numeric_limits<double>::denorm_min();
  return std::bit_cast<double>(bits - 1);
}
inline double below(double x) {
  const auto bits = std::bit_cast<std::uint64_t>(x);
  return bits - 1 < bits_of_infinity - 1 ? std::bit_cast<double>(bits - 1) : -above(-x);
}

// IEEE 754 rounds +, -, *, / correctly, so the exact result lies between the neighbours of the rounded one.
// A bound that is known to be non-negative stays so: the neighbour of 0 would only make a resistance
// negative.
inline Interval outward(double low, double high, bool non_negative) {
  low = below(low);
  return {non_negative ? std::max(low, 0.0) : low, above(high)};
}

// 0 · ∞ is 0: an infinite bound stands for values as large as you like, never for infinity itself.
inline double product(double a, double b) { return a == 0 || b == 0 ? 0 : a * b; }

}

/// `x` widened to the neighbouring double, `ulps` times on both sides.
inline Interval widened(Interval x, int ulps) {
  for (int i = 0; i < ulps; ++i) x = detail::outward(x.low, x.high, false);
  return x;
}

/// Sums, products and quotients of non-negative intervals stay non-negative; so does e^x.
inline Interval operator+(Interval a, Interval b) {
  return detail::outward(a.low + b.low, a.high + b.high, a.low >= 0 && b.low >= 0);
}

inline Interval operator-(Interval a, Interval b) {
  return detail::outward(a.low - b.high, a.high - b.low, false);
}

inline Interval operator*(Interval a, Interval b) {
  if (a.low >= 0 && b.low >= 0)
    return detail::outward(detail::product(a.low, b.low), detail::product(a.high, b.high), true);
  const auto [low, high] = std::minmax({detail::product(a.low, b.low), detail::product(a.low, b.high),
                                        detail::product(a.high, b.low), detail::product(a.high, b.high)});
  return detail::outward(low, high, false);
}

/// `b` must be finite and must not contain zero: where it does, nothing is known and the result is the whole
/// line.
inline Interval operator/(Interval a, Interval b) {
  if (b.contains(0)) return {-infinity, infinity};
  if (a.low >= 0 && b.low > 0) return detail::outward(a.low / b.high, a.high / b.low, true);
  const auto [low, high] = std::minmax({a.low / b.low, a.low / b.high, a.high / b.low, a.high / b.high});
  return detail::outward(low, high, false);
}

/// e^x and ln x (x > 0), widened by 2 neighbouring doubles on both sides for the error of the C library.
Interval exp(Interval x);
Interval log(Interval x);
/// The smallest interval that holds both.
inline Interval hull(Interval a, Interval b) { return {std::min(a.low, b.low), std::max(a.high, b.high)}; }

}
