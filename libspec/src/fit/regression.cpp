#include "fit/regression.h"

#include <algorithm>
#include <cmath>

namespace ohmlore {
namespace {

// Parameters in one row: those of the curve, factors of all specimens but the last, their slopes.
struct Layout {
  std::size_t curve, specimens;
  bool own_slopes;
  std::size_t others() const { return specimens - 1; }
  std::size_t size() const { return curve + others() * (own_slopes ? 2 : 1); }
};

// The last specimen has what makes the sum 0.
double own(std::span<const double> parameters, std::size_t first, std::size_t others, std::size_t specimen) {
  if (specimen < others) return parameters[first + specimen];
  double sum = 0;
  for (std::size_t s = 0; s < others; ++s) sum += parameters[first + s];
  return -sum;
}

void set_own(std::vector<double>& row, std::size_t first, std::size_t others, std::size_t specimen,
             double value) {
  if (specimen < others)
    row[first + specimen] = value;
  else
    std::fill_n(row.begin() + static_cast<std::ptrdiff_t>(first), others, -value);
}

// The model at a true temperature: value, slope, derivatives.
struct Model_value {
  double log_ohm = 0, per_kelvin = 0;
  std::vector<double> row;
};

std::optional<Model_value> model_at(const Fit_curve& curve, const Layout& layout,
                                    std::span<const double> parameters, std::size_t specimen, double kelvin) {
  const auto common = curve.at(parameters.first(layout.curve), kelvin);
  if (!common) return std::nullopt;
  Model_value out{common->log_ohm, common->per_kelvin, std::vector<double>(layout.size())};
  std::copy_n(common->by_parameter.begin(), layout.curve, out.row.begin());
  const std::size_t others = layout.others();
  out.log_ohm += own(parameters, layout.curve, others, specimen);
  set_own(out.row, layout.curve, others, specimen, 1);
  if (layout.own_slopes) {
    const double slope = own(parameters, layout.curve + others, others, specimen);
    const double x = curve.specimen_slope(kelvin);
    out.log_ohm += slope * x;
    out.per_kelvin -= slope / (kelvin * kelvin);
    set_own(out.row, layout.curve + others, others, specimen, x);
  }
  return out;
}

struct Linearised {
  std::vector<Model_value> models;
  std::vector<double> residuals, variances;
};

// Each reading around its true temperature as it is estimated now.
std::optional<Linearised> linearised(const Fit_curve& curve, const Layout& layout,
                                     std::span<const double> parameters,
                                     std::span<const Observation> observations,
                                     std::span<const double> true_kelvin) {
  Linearised out;
  for (std::size_t i = 0; i < observations.size(); ++i) {
    const Observation& o = observations[i];
    auto model = model_at(curve, layout, parameters, o.specimen, true_kelvin[i]);
    if (!model || !std::isfinite(model->log_ohm)) return std::nullopt;
    const double spread = model->per_kelvin * o.u_kelvin;
    out.residuals.push_back(o.log_ohm - model->log_ohm - model->per_kelvin * (o.kelvin - true_kelvin[i]));
    out.variances.push_back(std::max(o.u_log * o.u_log + spread * spread, 1e-24));
    out.models.push_back(std::move(*model));
  }
  return out;
}

Normal_equations normal_equations(const Linearised& now, const Layout& layout) {
  Normal_equations equations(layout.size());
  for (std::size_t i = 0; i < now.models.size(); ++i)
    equations.add(now.models[i].row, now.residuals[i], 1 / now.variances[i]);
  return equations;
}

}

std::vector<double> Regression::moved_by(std::span<const double> off) const {
  std::vector<double> sum(covariance.size());
  for (std::size_t i = 0; i < rows.size(); ++i)
    for (std::size_t k = 0; k < sum.size(); ++k) sum[k] += rows[i][k] * off[i] / variances[i];
  return covariance.times(sum);
}

double Regression::specimen_off(const Fit_curve& curve_of, std::size_t specimen, double kelvin) const {
  return factors[specimen] + (slopes.empty() ? 0 : slopes[specimen] * curve_of.specimen_slope(kelvin));
}

// Parameters and true temperatures that make Σ (Δ ln R / u)² + (Δ T / u)² least. With the true temperatures
// held, a step of Gauss and Newton takes the residuals as seen through the slope, with the variance of both;
// then each true temperature takes its share of its residual. Where nothing moves any more, the derivatives
// of the sum by all of them are 0 (Boggs, Byrd and Schnabel 1987 solve the same problem).
std::optional<Regression> regress(const Fit_curve& curve, std::span<const Observation> observations,
                                  std::size_t specimens, bool own_slopes) {
  const Layout layout{curve.parameters(), specimens, own_slopes};
  if (observations.size() < layout.size()) return std::nullopt;
  std::vector<double> kelvin, log_ohm;
  for (const Observation& o : observations) kelvin.push_back(o.kelvin), log_ohm.push_back(o.log_ohm);
  const auto start = curve.start(kelvin, log_ohm);
  if (!start) return std::nullopt;
  std::vector<double> parameters(layout.size());
  std::copy(start->begin(), start->end(), parameters.begin());

  constexpr int most_rounds = 200;
  constexpr double least_scale = 1e-4; // below this the digits of a double end before the steps do
  bool settled = false;
  for (int round = 0; round < most_rounds && !settled; ++round) {
    const auto now = linearised(curve, layout, parameters, observations, kelvin);
    if (!now) return std::nullopt;
    const auto step = normal_equations(*now, layout).solution();
    if (!step) return std::nullopt;
    for (std::size_t k = 0; k < parameters.size(); ++k) parameters[k] += (*step)[k];
    double moved = 0; // of the curve at the readings, in their standard uncertainties
    for (std::size_t i = 0; i < observations.size(); ++i) {
      const Observation& o = observations[i];
      double along = 0;
      for (std::size_t k = 0; k < parameters.size(); ++k) along += now->models[i].row[k] * (*step)[k];
      const double left = now->residuals[i] - along;
      const double true_kelvin =
          o.kelvin + o.u_kelvin * o.u_kelvin * now->models[i].per_kelvin * left / now->variances[i];
      const double u = std::fmax(std::sqrt(now->variances[i]), least_scale);
      moved = std::max({moved, std::fabs(along) / u,
                        std::fabs((true_kelvin - kelvin[i]) * now->models[i].per_kelvin) / u});
      kelvin[i] = true_kelvin;
    }
    settled = moved < 1e-9;
  }
  if (!settled) return std::nullopt;

  auto now = linearised(curve, layout, parameters, observations, kelvin);
  if (!now) return std::nullopt;
  for (double& residual : now->residuals) residual = without_noise(residual);
  auto covariance = normal_equations(*now, layout).inverse();
  if (!covariance) return std::nullopt;
  Regression out;
  out.curve.assign(parameters.begin(), parameters.begin() + static_cast<std::ptrdiff_t>(layout.curve));
  for (std::size_t s = 0; s < specimens; ++s) {
    out.factors.push_back(own(parameters, layout.curve, layout.others(), s));
    if (own_slopes) out.slopes.push_back(own(parameters, layout.curve + layout.others(), layout.others(), s));
  }
  out.covariance = std::move(*covariance);
  for (std::size_t i = 0; i < observations.size(); ++i) {
    out.chi_square += now->residuals[i] * now->residuals[i] / now->variances[i];
    out.leverages.push_back(std::min(1.0, out.covariance.square(now->models[i].row) / now->variances[i]));
    const double rounded = std::hypot(observations[i].resolution_log,
                                      observations[i].rounding_kelvin * now->models[i].per_kelvin);
    out.resolutions.push_back(rounded * rounded / 3);
    out.slopes_at.push_back(now->models[i].per_kelvin);
    out.rows.push_back(std::move(now->models[i].row));
  }
  out.residuals = std::move(now->residuals);
  out.variances = std::move(now->variances);
  out.freedom = observations.size() - layout.size();
  return out;
}

}
