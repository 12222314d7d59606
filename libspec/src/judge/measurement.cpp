#include "ohmlore/measurement.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include "judge/sum.h"
#include "lint/meter.h"

namespace ohmlore {

double standard_uncertainty(const Deviation& deviation) {
  switch (deviation.shape) {
  case Distribution::rectangular: return deviation.half_width / std::sqrt(3.0);
  case Distribution::triangular: return deviation.half_width / std::sqrt(6.0);
  case Distribution::normal: break;
  }
  return deviation.half_width;
}

double combined_uncertainty(std::span<const Deviation> independent) {
  double squares = 0;
  for (const Deviation& deviation : independent) squares += std::pow(standard_uncertainty(deviation), 2);
  return std::sqrt(squares);
}

namespace {

double normal_below(double z) { return std::erfc(-z / std::numbers::sqrt2) / 2; }

// A normal deviation of so many standard uncertainties does not happen (probability below 1e-16).
constexpr double far_off = 8.5;

// The distribution of a normal deviation, integrated n times: n I_n(z) = z I_{n-1}(z) + I_{n-2}(z).
double integrated_normal(double z, unsigned n) {
  if (z < -far_off) return 0;
  const bool beyond = z > far_off;
  double before = beyond ? 0 : std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi);
  double now = beyond ? 1 : normal_below(z);
  for (unsigned i = 1; i <= n; ++i) {
    const double next = (z * now + before) / i;
    before = now;
    now = next;
  }
  return now;
}

double integrated_step(double x, unsigned n) {
  if (x <= 0) return 0;
  double power = 1;
  for (unsigned i = 1; i <= n; ++i) power *= x / i;
  return power;
}

}

Sum_distribution::Sum_distribution(std::span<const Deviation> independent) {
  constexpr double negligible = 0.03;
  const double whole = combined_uncertainty(independent);
  std::vector<double> rectangles;
  double normal = 0;
  for (const Deviation& deviation : independent) {
    if (deviation.shape == Distribution::normal)
      normal += deviation.half_width * deviation.half_width;
    else if (deviation.shape == Distribution::rectangular)
      rectangles.push_back(deviation.half_width);
    else // a triangle is the sum of two rectangles of half its width
      rectangles.insert(rectangles.end(), 2, deviation.half_width / 2);
  }
  std::sort(rectangles.begin(), rectangles.end(), std::greater<>());
  while (!rectangles.empty() &&
         (rectangles.size() > most_ || rectangles.back() < negligible * whole || rectangles.back() == 0)) {
    normal += rectangles.back() * rectangles.back() / 3;
    rectangles.pop_back();
  }
  sigma_ = std::sqrt(normal);
  if (!rectangles.empty() && sigma_ < 1e-4 * whole) sigma_ = 0;
  reach_ = far_off * sigma_;
  for (const double a : rectangles) {
    half_widths_[count_++] = a;
    reach_ += a;
    scale_ *= (sigma_ > 0 ? sigma_ : 1) / (2 * a);
  }
}

double Sum_distribution::below(double x) const {
  if (x >= reach_) return 1;
  if (x <= -reach_) return 0;
  // Each rectangle is the difference of two integrals: 2^n terms with alternating signs.
  double total = 0;
  for (unsigned signs = 0; signs < (1u << count_); ++signs) {
    double at = x;
    bool negative = false;
    for (unsigned i = 0; i < count_; ++i) {
      const bool minus = (signs >> i) & 1u;
      at += minus ? -half_widths_[i] : half_widths_[i];
      negative ^= minus;
    }
    const double term = sigma_ > 0 ? integrated_normal(at / sigma_, count_) : integrated_step(at, count_);
    total += negative ? -term : term;
  }
  return std::clamp(total * scale_, 0.0, 1.0);
}

Conformity_probability Sum_distribution::around(double estimate, Interval limits) const {
  if (reach_ == 0) { // a value on the limit is still within
    if (estimate < limits.low) return {1, 0, 0};
    if (estimate > limits.high) return {0, 0, 1};
    return {0, 1, 0};
  }
  // The deviations are symmetric, so that each tail keeps its own precision.
  const double under = below(limits.low - estimate), over = below(estimate - limits.high);
  return {under, std::max(0.0, 1 - under - over), over};
}

double probability_below(double x, std::span<const Deviation> independent) {
  return Sum_distribution(independent).below(x);
}

Conformity_probability conformity(double estimate, std::span<const Deviation> independent, Interval limits) {
  return Sum_distribution(independent).around(estimate, limits);
}

std::string_view name_of(const Decision_rule& rule) {
  if (rule == guarded) return "guarded";
  if (rule == guarded_acceptance) return "guarded_acceptance";
  return rule == simple_acceptance ? "simple" : "stated";
}

Conformity decide(const Conformity_probability& probable, const Decision_rule& rule) {
  // A probability that was computed from what was rounded: 0.95 is meant where it is 0.9499999999.
  constexpr double rounding = 1e-9;
  if (probable.within >= 1 - rule.false_acceptance - rounding) return Conformity::within;
  const double beyond = std::max(probable.below, probable.above);
  return beyond >= 1 - rule.false_rejection - rounding ? Conformity::outside : Conformity::too_close;
}

namespace {

rules::Handheld handheld(const Meter_accuracy& meter) {
  return {meter.of_reading, meter.counts, meter.display_counts, 0};
}

}

double display_step(const Meter_accuracy& meter, double ohm) {
  return rules::last_digit(handheld(meter), ohm < 0 ? -ohm : ohm);
}

double highest_range(const Meter_accuracy& meter) { return rules::highest_range(handheld(meter)); }

}
