// What is uncertain, and the tolerance that it leaves to be claimed.
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "fit/distributions.h"
#include "fit/worked_out.h"

namespace ohmlore {

Measurement_bounds measurement_bounds(const Fit_means& means, double ohm, double per_kelvin,
                                      double half_digit) {
  const double shown = ohm + means.leads.ohm, step = display_step(means.meter, shown);
  Measurement_bounds out;
  out.meter = accuracy_half_width(means.meter, shown, step) / ohm;
  out.leads = means.leads.half_width / ohm;
  out.rounding = half_digit > step / 2 ? half_digit / ohm : 0;
  out.thermometer = std::fabs(per_kelvin) * means.thermometer;
  return out;
}

double Worked_fit::spread(double t) const {
  if (specimens < 2) return 0;
  double sum = 0;
  const Regression& by = apart ? *apart : regression;
  for (std::size_t s = 0; s < specimens; ++s) {
    const double off = by.specimen_off(curve, s, t);
    sum += off * off; // around their mean, which is 0
  }
  return without_noise(std::sqrt(sum / static_cast<double>(specimens - 1)));
}

double Worked_fit::spread_of_slopes() const {
  if (!apart) return 0;
  double sum = 0;
  for (const double slope : apart->slopes) sum += slope * slope;
  return std::sqrt(sum / static_cast<double>(specimens - 1));
}

double Worked_fit::moved_at_most(const Regression& by, std::span<const double> weights,
                                 std::span<const double> off) const {
  std::vector<double> all(by.covariance.size());
  std::copy(weights.begin(), weights.end(), all.begin());
  const std::vector<double> moved = by.covariance.times(all);
  double sum = 0;
  for (std::size_t i = 0; i < observations.size(); ++i)
    sum += std::fabs(std::inner_product(moved.begin(), moved.end(), by.rows[i].begin(), 0.0)) * off[i] /
           by.variances[i];
  return sum;
}

double Worked_fit::moved_by_instruments(const Regression& by, std::span<const double> weights) const {
  std::vector<double> off;
  for (std::size_t i = 0; i < observations.size(); ++i) {
    const Observation& o = observations[i];
    const double slope = std::fabs(by.slopes_at[i]);
    off.push_back(measurement_bounds(means, std::exp(o.log_ohm), slope).all() + o.rounding_log +
                  slope * o.rounding_kelvin);
  }
  return moved_at_most(by, weights, off);
}

// Specimens that are much alike are rounded alike, so that no number of readings averages it away.
double Worked_fit::rounding(double t) const {
  const auto here = curve.at(regression.curve, t);
  if (!here) return 0;
  std::vector<double> off;
  for (std::size_t i = 0; i < observations.size(); ++i)
    off.push_back(observations[i].rounding_log +
                  std::fabs(regression.slopes_at[i]) * observations[i].rounding_kelvin);
  return moved_at_most(regression, std::span(here->by_parameter).first(curve.parameters()), off);
}

std::vector<double> Worked_fit::moved_alike(const Regression& by, std::span<const double> weights) const {
  std::vector<double> meter, leads, thermometer, out;
  for (std::size_t i = 0; i < observations.size(); ++i) {
    const auto bounds = measurement_bounds(means, std::exp(observations[i].log_ohm), by.slopes_at[i]);
    meter.push_back(bounds.meter);
    leads.push_back(bounds.leads);
    thermometer.push_back(std::copysign(bounds.thermometer, by.slopes_at[i]));
  }
  for (const auto* pattern : {&meter, &leads, &thermometer}) {
    const std::vector<double> moved = by.moved_by(*pattern);
    out.push_back(std::inner_product(weights.begin(), weights.end(), moved.begin(), 0.0));
  }
  return out;
}

double Worked_fit::bend(double t) const {
  const auto there = beside ? beside->curve.at(beside->parameters, t) : std::nullopt;
  return there ? std::fabs(there->log_ohm - log_ohm(t)) : 0;
}

double Worked_fit::moved_alike_at(double t) const {
  const auto here = curve.at(regression.curve, t);
  if (!here) return 0;
  double sum = 0;
  for (const double moved : moved_alike(regression, std::span(here->by_parameter).first(curve.parameters())))
    sum += std::fabs(moved);
  return sum;
}

double Worked_fit::variance_by_baths(std::span<const double> weights) const {
  std::vector<double> all(regression.covariance.size());
  std::copy(weights.begin(), weights.end(), all.begin());
  const std::vector<double> moved = regression.covariance.times(all);
  double variance = 0;
  std::map<double, double> by_kelvin;
  for (std::size_t i = 0; i < observations.size(); ++i) {
    const Observation& o = observations[i];
    const double weight = std::inner_product(moved.begin(), moved.end(), regression.rows[i].begin(), 0.0) /
                          regression.variances[i];
    variance += weight * weight * o.u_log * o.u_log;
    by_kelvin[o.kelvin] += weight * regression.slopes_at[i] * o.u_kelvin;
  }
  for (auto at = by_kelvin.begin(); at != by_kelvin.end();) {
    const double first = at->first;
    double sum = 0;
    for (; at != by_kelvin.end() && at->first <= first + means.thermometer; ++at) sum += at->second;
    variance += sum * sum;
  }
  return variance;
}

// The errors of meter and thermometer may be each reading's own, those of the temperature common to all that
// were read at it, or all of them common: of a slope the second is the greatest, of a resistance the third.
// What the residuals show to be larger than stated counts as they show it; so does the spread of specimens,
// in which the errors of single readings are, but not those that are common.
double Worked_fit::expanded_uncertainty(std::span<const double> weights, double among_specimens) const {
  std::vector<double> all(regression.covariance.size());
  std::copy(weights.begin(), weights.end(), all.begin());
  const double freedom = static_cast<double>(regression.freedom), normal = normal_quantile(0.975);
  const double excess = regression.freedom > 0 ? std::fmax(1, regression.chi_square / freedom) : 1;
  const double of_readings = (excess > 1 ? student_two_sided(0.05, freedom) : normal) *
                             std::sqrt(excess * regression.covariance.square(all));
  double variance = 0;
  for (const double moved : moved_alike(regression, weights)) variance += moved * moved / 3; // rectangular
  const double common = normal * std::sqrt(std::fmax(variance, variance_by_baths(weights)));
  if (specimens < 2) return std::fmax(of_readings, common);
  const double count = static_cast<double>(specimens);
  const double of_specimens = student_two_sided(0.05, count - 1) * among_specimens / std::sqrt(count);
  return std::hypot(std::fmax(of_readings, of_specimens), common);
}

std::vector<Tolerance_at> tolerances(const Worked_fit& work, double factor) {
  constexpr int steps = 32;
  std::vector<Tolerance_at> out;
  const auto add = [&](double t) {
    Tolerance_at at{t, work.spread(t)};
    at.measurement =
        std::fmax(measurement_bounds(work.means, std::exp(work.log_ohm(t)), work.per_kelvin(t)).all(),
                  work.moved_alike_at(t)) +
        work.rounding(t) + work.bend(t);
    at.half_width = factor * at.spread + at.measurement;
    out.push_back(at);
  };
  add(work.reference);
  for (int i = 0; i <= steps; ++i) add(work.kelvin.low + i * work.kelvin.width() / steps);
  return out;
}

double rounded_up(double share) {
  if (!(share > 0)) return 0;
  const double unit = std::pow(10.0, std::floor(std::log10(share)) - 1);
  return std::ceil(share / unit - 1e-9) * unit;
}

namespace {

// Both in kelvin.
double room_in_class(const Worked_fit& work, Rtd_class one, const Tolerance_at& here, double shift) {
  return rtd_class_tolerance(one, here.kelvin - zero_celsius) -
         (here.half_width + shift) / work.per_kelvin(here.kelvin);
}

std::optional<Tolerance_class> class_of(const Worked_fit& work, const std::vector<Tolerance_at>& at,
                                        double shift) {
  for (const auto one : {Rtd_class::aa, Rtd_class::a, Rtd_class::b, Rtd_class::c}) {
    const bool holds = std::all_of(at.begin(), at.end(), [&](const Tolerance_at& here) {
      const double celsius = here.kelvin - zero_celsius;
      const Rtd_class_range range = rtd_class_range(one);
      return room_in_class(work, one, here, shift) >= 0 && range.wire_low <= celsius &&
             celsius <= range.wire_high;
    });
    if (holds) return static_cast<Tolerance_class>(one); // in the same order
  }
  return std::nullopt;
}

// How far the mean specimen lies from what is written.
double shift_to(double nominal, const Worked_fit& work) {
  return std::fabs(std::log(nominal) - work.log_ohm(work.reference));
}

// The reference is 0 °C, and may lie far from what was measured.
std::vector<Tolerance_at> tolerances_of_platinum(const Worked_fit& work, double factor) {
  auto at = tolerances(work, factor);
  at.erase(at.begin());
  return at;
}

}

Off_kelvin most_beyond_class_c(const Worked_fit& work, double factor, double nominal) {
  const double shift = shift_to(nominal, work);
  const auto at = tolerances_of_platinum(work, factor);
  const auto room = [&](const Tolerance_at& here) { return room_in_class(work, Rtd_class::c, here, shift); };
  const Tolerance_at& most = *std::min_element(
      at.begin(), at.end(), [&](const Tolerance_at& a, const Tolerance_at& b) { return room(a) < room(b); });
  return {most.kelvin, (most.half_width + shift) / work.per_kelvin(most.kelvin)};
}

std::optional<Fit_tolerance> tolerance_of(const Worked_fit& work, Model_kind model, double nominal) {
  if (work.specimens < 2) return std::nullopt;
  Fit_tolerance out;
  out.specimens = work.specimens;
  out.factor = tolerance_factor(work.specimens, work.means.content, work.means.confidence);
  const bool platinum = model == Model_kind::iec_60751;
  const auto at = platinum ? tolerances_of_platinum(work, out.factor) : tolerances(work, out.factor);
  const double shift = shift_to(nominal, work);
  const Tolerance_at reference = at.front();
  if (platinum) out.tolerance_class = class_of(work, at, shift);
  const auto widest =
      *std::max_element(at.begin(), at.end(), [](const Tolerance_at& a, const Tolerance_at& b) {
        return a.half_width < b.half_width;
      });
  out.spread = widest.spread;
  out.measurement = widest.measurement;
  out.kelvin = widest.kelvin;
  out.share = rounded_up(std::expm1(widest.half_width + shift));
  if (model == Model_kind::beta && work.apart) {
    const double b = work.regression.curve[1];
    double off = out.factor * work.spread_of_slopes();
    for (const Tolerance_at& here : at) {
      const double x = std::fabs(work.curve.specimen_slope(here.kelvin));
      if (x > 1e-7) off = std::fmax(off, (here.half_width - reference.half_width) / x);
    }
    out.b_share = rounded_up((off + 0.5) / b); // it is written in whole kelvin
    out.spread = reference.spread;
    out.measurement = reference.measurement;
    out.kelvin = reference.kelvin;
    out.share = rounded_up(std::expm1(reference.half_width + shift));
  }
  if (out.share >= 1 || (out.b_share && *out.b_share >= 1)) return std::nullopt;
  return out;
}

double chance_of_gain(const Regression& less, const Regression& more) {
  if (more.freedom == 0 || more.freedom >= less.freedom) return 1;
  const double freedom = static_cast<double>(more.freedom),
               parameters = static_cast<double>(less.freedom - more.freedom),
               gain = less.chi_square - more.chi_square;
  double rounding = 0; // a table that is rounded alike scatters less than its digits tell
  for (std::size_t i = 0; i < more.variances.size(); ++i)
    rounding += more.resolutions[i] / more.variances[i] / static_cast<double>(more.variances.size());
  const double scatter = std::fmax(more.chi_square / freedom, rounding);
  if (!(scatter > 0)) return gain > 0 ? 0 : 1;
  return fisher_above(gain / parameters / scatter, parameters, freedom);
}

bool third_coefficient_is_real(const Worked_fit& hart) {
  const double weights[] = {0, 0, 1};
  return std::fabs(hart.regression.curve[2]) > hart.moved_by_instruments(hart.regression, weights);
}

bool scatters_beyond_bounds(const Regression& regression) {
  const double freedom = static_cast<double>(regression.freedom);
  return regression.freedom > 0 && regression.chi_square > 3 * freedom &&
         chi_square_above(regression.chi_square, freedom) < 0.001;
}

bool Bend::is_real() const { return probability < 0.01 && std::fabs(per_kelvin - of_model) > explained; }

std::optional<Bend> bend_of(const Worked_fit& work, Model_kind model) {
  const Fit_curve bent(model, work.reference, 0, true);
  const auto more = regress(bent, work.observations, work.specimens, false);
  if (!more || more->freedom == 0) return std::nullopt;
  Bend bend;
  bend.probability = chance_of_gain(work.regression, *more);
  bend.of_model = work.per_kelvin(work.reference);
  bend.per_kelvin = bend.of_model + more->curve[1];
  const double weights[] = {0, 1};
  bend.explained = work.moved_by_instruments(*more, weights);
  bend.curve = Curve_beside{bent, more->curve};
  return bend;
}

}
