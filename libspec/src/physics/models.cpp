#include "ohmlore/physics.h"

#include <array>
#include <cmath>
#include <limits>
#include <numeric>

namespace ohmlore {
namespace {

constexpr Interval point(double x) { return {x, x}; }

// A decimal constant that is no double: the neighbours enclose it.
Interval decimal(double nearest) { return widened(point(nearest), 1); }

// The last double in [low, high) at which `holds` is true, for a condition that is true up to some point and
// false from there on; it must be true at `low` and false at `high`.
template <class Condition>
double last_where(double low, double high, Condition holds) {
  for (double middle = std::midpoint(low, high); low < middle && middle < high;
       middle = std::midpoint(low, high))
    (holds(middle) ? low : high) = middle;
  return low;
}

}

Interval celsius_of(Interval kelvin) { return widened(kelvin, 1) - decimal(zero_celsius); }

Interval beta_resistance(Interval t_kelvin, Interval r_ref, Interval t_ref_kelvin, Interval b_kelvin) {
  return r_ref * exp(b_kelvin * (point(1) / t_kelvin - point(1) / t_ref_kelvin));
}

std::optional<Interval> beta_temperature(Interval ohm, Interval r_ref, Interval t_ref_kelvin,
                                         Interval b_kelvin) {
  const Interval inverse = point(1) / t_ref_kelvin + log(ohm / r_ref) / b_kelvin;
  if (!(inverse.low > 0)) return {};
  return point(1) / inverse;
}

Interval b_between(Interval r1, Interval t1_kelvin, Interval r2, Interval t2_kelvin) {
  return log(r1 / r2) / (point(1) / t1_kelvin - point(1) / t2_kelvin);
}

double steinhart_hart_temperature(const Steinhart_hart& coefficients, double ohm) {
  const double l = std::log(ohm);
  return 1 / (coefficients.a + l * (coefficients.b + coefficients.c * l * l));
}

std::optional<double> steinhart_hart_resistance(const Steinhart_hart& coefficients, double t_kelvin) {
  const double a = coefficients.a, b = coefficients.b, c = coefficients.c;
  if (!(t_kelvin > 0)) return {};
  const double inverse = 1 / t_kelvin;

  // The stretches of l = ln R on which a + b l + c l³ rises, within what a double can hold as R.
  struct Stretch {
    double low, high;
  };
  const double least = std::log(std::numeric_limits<double>::min());
  const double most = std::log(std::numeric_limits<double>::max());
  std::array<Stretch, 2> rising{};
  std::size_t count = 0;
  if (b >= 0 && c >= 0) {
    rising[count++] = {least, most};
  } else if (b > 0 || c > 0) {
    const double turn = std::sqrt(-b / c / 3);
    if (c < 0) {
      rising[count++] = {std::fmax(-turn, least), std::fmin(turn, most)};
    } else {
      rising[count++] = {least, -turn};
      rising[count++] = {turn, most};
    }
  }

  std::optional<double> found;
  for (std::size_t i = 0; i < count; ++i) {
    const auto [low, high] = rising[i];
    const auto not_past = [=](double l) { return a - inverse + l * (b + c * l * l) <= 0; };
    if (!(low < high) || !not_past(low) || not_past(high)) continue;
    if (found) return {};
    found = std::exp(last_where(low, high, not_past));
  }
  return found;
}

std::optional<Steinhart_hart> steinhart_hart_through(std::span<const double, 3> t_kelvin,
                                                     std::span<const double, 3> ohm) {
  for (std::size_t i = 0; i < 3; ++i) {
    const std::size_t next = (i + 1) % 3;
    if (!(t_kelvin[i] > 0) || !(ohm[i] > 0) || t_kelvin[i] == t_kelvin[next] || ohm[i] == ohm[next])
      return {};
  }
  // Divided differences: the second one of l³ over three points is their sum.
  const double l0 = std::log(ohm[0]), l1 = std::log(ohm[1]), l2 = std::log(ohm[2]);
  const double y0 = 1 / t_kelvin[0], y1 = 1 / t_kelvin[1], y2 = 1 / t_kelvin[2];
  const double first = (y1 - y0) / (l1 - l0);
  const double second = ((y2 - y0) / (l2 - l0) - first) / (l2 - l1);
  const double c = second / (l0 + l1 + l2);
  const double b = first - c * (l0 * l0 + l0 * l1 + l1 * l1);
  const double a = y0 - l0 * (b + c * l0 * l0);
  const Steinhart_hart found = {a, b, c};
  // Logarithms of doubles seldom add up to 0 to the last bit: what they leave makes a curve beside the
  // points.
  for (std::size_t i = 0; i < 3; ++i)
    if (!(std::fabs(steinhart_hart_temperature(found, ohm[i]) / t_kelvin[i] - 1) < 1e-9)) return {};
  return found;
}

namespace {

constexpr double platinum_slack = 1e-9; // kelvin, see the header
constexpr Interval platinum_range = {-200 - platinum_slack, 850 + platinum_slack};

// R(t)/R0 at one temperature. Its slope falls all the way, from 4.3e-3 at -200 °C to 2.9e-3 per kelvin at 850
// °C, and stays positive: over a range the ends are enough.
Interval platinum_ratio(double celsius) {
  const Interval t = point(celsius);
  Interval inner = decimal(-5.775e-7);
  if (celsius < 0) inner = inner + decimal(-4.183e-12) * (t - point(100)) * t;
  return point(1) + t * (decimal(3.9083e-3) + t * inner);
}

}

std::optional<Interval> platinum_resistance(Interval t_celsius, Interval r0) {
  if (!platinum_range.contains(t_celsius)) return {};
  return r0 * Interval{platinum_ratio(t_celsius.low).low, platinum_ratio(t_celsius.high).high};
}

std::optional<Interval> platinum_temperature(Interval ohm, Interval r0) {
  const Interval ratio = ohm / r0;
  const auto surely_not_above = [&](double t) { return platinum_ratio(t).high <= ratio.low; };
  const auto not_surely_above = [&](double t) { return platinum_ratio(t).low < ratio.high; };
  const auto [cold, hot] = platinum_range;
  if (!surely_not_above(cold) || not_surely_above(hot)) return {};
  const double last_below = last_where(cold, hot, not_surely_above);
  return Interval{last_where(cold, hot, surely_not_above), std::nextafter(last_below, infinity)};
}

double rtd_class_tolerance(Rtd_class accuracy, double t_celsius) {
  const double t = std::fabs(t_celsius);
  switch (accuracy) {
  case Rtd_class::aa: return 0.1 + 0.0017 * t;
  case Rtd_class::a: return 0.15 + 0.002 * t;
  case Rtd_class::b: return 0.3 + 0.005 * t;
  case Rtd_class::c: break;
  }
  return 0.6 + 0.01 * t;
}

Rtd_class_range rtd_class_range(Rtd_class accuracy) {
  switch (accuracy) {
  case Rtd_class::aa: return {.wire_low = -50, .wire_high = 250, .film_low = 0, .film_high = 150};
  case Rtd_class::a: return {.wire_low = -100, .wire_high = 450, .film_low = -30, .film_high = 300};
  case Rtd_class::b: return {.wire_low = -196, .wire_high = 600, .film_low = -50, .film_high = 500};
  case Rtd_class::c: break;
  }
  return {.wire_low = -196, .wire_high = 600, .film_low = -50, .film_high = 600};
}

Interval polynomial_resistance(Interval t_celsius, Interval r0, std::span<const Interval> coefficients) {
  const auto growth = [&](Interval t) {
    Interval sum = point(0);
    for (std::size_t i = coefficients.size(); i-- > 0;) sum = (sum + coefficients[i]) * t;
    return sum;
  };
  Interval slope = point(0);
  for (std::size_t i = coefficients.size(); i-- > 0;)
    slope = slope * t_celsius + point(static_cast<double>(i + 1)) * coefficients[i];
  // Where every curve rises, or every curve falls, the ends of the range hold the extremes.
  const bool monotone = slope.low >= 0 || slope.high <= 0;
  return r0 * (point(1) + (monotone ? hull(growth(point(t_celsius.low)), growth(point(t_celsius.high)))
                                    : growth(t_celsius)));
}

Interval copper_resistance(Interval t_celsius, Interval r_ref, Interval t_ref_celsius, double k) {
  return r_ref * (point(k) + t_celsius) / (point(k) + t_ref_celsius);
}

Interval resistance_from_power(Interval volt, Interval watt) { return volt * volt / watt; }

}
