#include "ohmlore/physics.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>

namespace ohmlore {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

// The next double towards +∞, as std::nextafter gives it, in a few instructions: the doubles of one sign are
// in the order of their bits.
double above(double x) {
  if (!(x < infinity)) return x;
  if (x == 0) return std::numeric_limits<double>::denorm_min();
  return std::bit_cast<double>(std::bit_cast<std::int64_t>(x) + (x > 0 ? 1 : -1));
}
double below(double x) { return -above(-x); }

// IEEE 754 rounds +, -, *, / correctly, so the exact result lies between the neighbours of the rounded one.
// A bound that is known to be non-negative stays so: the neighbour of 0 would only make a resistance
// negative.
Interval outward(double low, double high, bool non_negative) {
  low = below(low);
  return {non_negative ? std::max(low, 0.0) : low, above(high)};
}

// 0 · ∞ is 0: an infinite bound stands for values as large as you like, never for infinity itself.
double product(double a, double b) { return a == 0 || b == 0 ? 0 : a * b; }

// The glibc manual ("Known Maximum Errors in Math Functions", x86_64) states at most 1 ulp for exp and log of
// a double; musl, which WebAssembly uses, has the same algorithms (from memory). Two neighbours cover 1 ulp
// everywhere, also just below a power of two, where neighbours are half an ulp apart. The tests compare with
// MPFR.
constexpr int library_neighbours = 2;

}

Interval widened(Interval x, int ulps) {
  for (int i = 0; i < ulps; ++i) x = outward(x.low, x.high, false);
  return x;
}

Interval operator+(Interval a, Interval b) {
  return outward(a.low + b.low, a.high + b.high, a.low >= 0 && b.low >= 0);
}

Interval operator-(Interval a, Interval b) { return outward(a.low - b.high, a.high - b.low, false); }

Interval operator*(Interval a, Interval b) {
  if (a.low >= 0 && b.low >= 0) return outward(product(a.low, b.low), product(a.high, b.high), true);
  const auto [low, high] = std::minmax(
      {product(a.low, b.low), product(a.low, b.high), product(a.high, b.low), product(a.high, b.high)});
  return outward(low, high, false);
}

Interval operator/(Interval a, Interval b) {
  if (b.contains(0)) return {-infinity, infinity};
  if (a.low >= 0 && b.low > 0) return outward(a.low / b.high, a.high / b.low, true);
  const auto [low, high] = std::minmax({a.low / b.low, a.low / b.high, a.high / b.low, a.high / b.high});
  return outward(low, high, false);
}

Interval exp(Interval x) {
  const Interval y = widened({std::exp(x.low), std::exp(x.high)}, library_neighbours);
  return {std::max(y.low, 0.0), y.high};
}

Interval log(Interval x) {
  return widened({x.low > 0 ? std::log(x.low) : -infinity, std::log(x.high)}, library_neighbours);
}

Interval hull(Interval a, Interval b) { return {std::min(a.low, b.low), std::max(a.high, b.high)}; }

}
