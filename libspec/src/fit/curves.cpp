#include "fit/curves.h"

#include <algorithm>
#include <cmath>

#include "fit/solve.h"

namespace ohmlore {
namespace {

// ln of R(t)/R0 after IEC 60751, and its slope. What was read at one of its ends may have been a little
// beyond: there it goes on straight.
std::optional<Curve_value> platinum(double kelvin) {
  const auto at = [](double t) -> std::optional<double> {
    const auto ratio = platinum_resistance({t, t}, {1, 1});
    return ratio ? std::optional(std::log(ratio->middle())) : std::nullopt;
  };
  constexpr double step = 0.01, coldest = -200, hottest = 850;
  const double t = kelvin - zero_celsius, inside = std::clamp(t, coldest + step, hottest - step);
  const auto here = at(inside), before = at(inside - step), behind = at(inside + step);
  if (!here || !before || !behind) return std::nullopt;
  const double slope = (*behind - *before) / (2 * step);
  return Curve_value{*here + slope * (t - inside), slope, {1, 0, 0}};
}

}

Fit_curve::Fit_curve(Model_kind kind, double reference_kelvin, double middle, bool bent)
    : kind_(kind), reference_(reference_kelvin), middle_(middle), bent_(bent) {}

std::size_t Fit_curve::parameters() const {
  switch (kind_) {
  case Model_kind::beta: return 2;
  case Model_kind::steinhart_hart: return 3;
  default: return bent_ ? 2 : 1;
  }
}

// 1/T = Σ parameter · basis of ln R: the space of 1, ln R and (ln R)³, around the middle, where the three can
// be told apart.
std::array<double, 3> Fit_curve::basis(double log_ohm) const {
  const double off = log_ohm - middle_;
  return {1, off, off * off * (log_ohm + 2 * middle_)}; // l³ - m³ - 3 m² (l - m)
}

std::optional<Curve_value> Fit_curve::at(std::span<const double> p, double kelvin) const {
  Curve_value value;
  switch (kind_) {
  case Model_kind::beta: {
    const double x = specimen_slope(kelvin);
    return Curve_value{p[0] + p[1] * x, -p[1] / (kelvin * kelvin), {1, x, 0}};
  }
  case Model_kind::steinhart_hart: {
    double l = middle_ + (1 / kelvin - p[0]) / p[1];
    for (int i = 0; i < 60; ++i) {
      const double off = l - middle_;
      const auto b = basis(l);
      const double slope = p[1] + p[2] * off * (3 * l + 3 * middle_);
      if (!(slope > 0) || !std::isfinite(l)) return std::nullopt;
      const double step = (p[0] + p[1] * b[1] + p[2] * b[2] - 1 / kelvin) / slope;
      l -= step;
      if (std::fabs(step) < 1e-13 * std::fabs(l)) break;
    }
    const auto b = basis(l);
    const double slope = p[1] + p[2] * (l - middle_) * (3 * l + 3 * middle_);
    if (!(slope > 0)) return std::nullopt;
    return Curve_value{l, -1 / (kelvin * kelvin * slope), {-b[0] / slope, -b[1] / slope, -b[2] / slope}};
  }
  case Model_kind::iec_60751: {
    const auto ratio = platinum(kelvin);
    if (!ratio) return std::nullopt;
    value = *ratio;
    break;
  }
  case Model_kind::copper:
    value.log_ohm = std::log((copper_k + kelvin - zero_celsius) / (copper_k + reference_ - zero_celsius));
    value.per_kelvin = 1 / (copper_k + kelvin - zero_celsius);
    break;
  default: break; // fixed
  }
  value.log_ohm += p[0];
  value.by_parameter = {1, 0, 0};
  if (bent_) {
    value.by_parameter[1] = kelvin - reference_;
    value.log_ohm += p[1] * value.by_parameter[1];
    value.per_kelvin += p[1];
  }
  return value;
}

std::optional<std::vector<double>> Fit_curve::start(std::span<const double> kelvin,
                                                    std::span<const double> log_ohm) const {
  const std::size_t count = parameters();
  Normal_equations equations(count);
  for (std::size_t i = 0; i < kelvin.size(); ++i) {
    if (kind_ == Model_kind::steinhart_hart) {
      const auto row = basis(log_ohm[i]);
      // In proportion to what it is in ln R, lest cold readings weigh little.
      const double weight = kelvin[i] * kelvin[i];
      equations.add(std::span(row).first(count), 1 / kelvin[i], weight);
      continue;
    }
    const std::vector<double> zero(count, 0);
    const auto shape = at(zero, kelvin[i]);
    if (!shape) return std::nullopt;
    equations.add(std::span(shape->by_parameter).first(count), log_ohm[i] - shape->log_ohm, 1);
  }
  return equations.solution();
}

Steinhart_hart Fit_curve::coefficients(std::span<const double> p) const {
  const auto by = coefficients_by_parameter();
  std::array<double, 3> out{};
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t k = 0; k < 3; ++k) out[i] += by[i][k] * p[k];
  return {out[0], out[1], out[2]};
}

std::array<std::array<double, 3>, 3> Fit_curve::coefficients_by_parameter() const {
  const double m = middle_;
  return {{{1, -m, 2 * m * m * m}, {0, 1, -3 * m * m}, {0, 0, 1}}};
}

}
