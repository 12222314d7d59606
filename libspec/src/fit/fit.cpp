// From readings to a part: which curve, how sure, what to doubt.
#include "ohmlore/fit.h"

#include <algorithm>
#include <cmath>

#include "fit/distributions.h"
#include "fit/outliers.h"
#include "fit/refuse.h"
#include "fit/remarks.h"
#include "judge/typed.h"
#include "lint/e_series.h"
#include "lint/platinum.h"
#include "lint/rule.h"
#include "text/calendar.h"
#include "text/counted.h"

namespace ohmlore {
namespace {

using Places = std::vector<std::size_t>;

double kelvin_of(double celsius) {
  const auto read = parse_quantity(fmt::format("{} °C", celsius), Dimension::temperature);
  return read.value->si;
}

// Where the resistance is stated: at the usual temperature if it was measured about there.
double reference_of(Model_kind model, Interval kelvin) {
  if (model == Model_kind::iec_60751) return kelvin_of(0);
  const bool thermistor = model == Model_kind::beta || model == Model_kind::steinhart_hart;
  const double usual = kelvin_of(thermistor ? 25 : 20), beyond = thermistor ? 0 : 5;
  if (kelvin.low - beyond <= usual && usual <= kelvin.high + beyond) return usual;
  const double middle = kelvin.middle() - zero_celsius;
  for (const double step : {5.0, 1.0, 0.1})
    if (const double round = kelvin_of(std::round(middle / step) * step); kelvin.contains(round))
      return round;
  return kelvin.middle();
}

// Each specimen can show a B of its own.
bool have_own_slopes(const Measurements& measurements, double half_width) {
  if (measurements.specimens.size() < 2) return false;
  std::vector<std::vector<double>> kelvin(measurements.specimens.size());
  for (const Fit_reading& reading : measurements.readings) kelvin[reading.specimen].push_back(reading.kelvin);
  return std::all_of(kelvin.begin(), kelvin.end(),
                     [&](const std::vector<double>& one) { return told_apart(one, half_width) >= 3; });
}

struct Setting {
  const Measurements& measurements;
  const Fit_means& means;
  Interval kelvin;
  bool can_tell_slopes; ///< each specimen shows a B of its own
  bool own_slopes;      ///< and they differ by more than chance
};

std::vector<double> log_ohms(const Setting& setting) {
  std::vector<double> out;
  for (const Fit_reading& reading : setting.measurements.readings)
    out.push_back(std::log(reading.ohm - setting.means.leads.ohm));
  return out;
}

// The slope decides how much of a reading's doubt is the thermometer's, but not the doubts themselves.
std::vector<Observation> observations_of(const Setting& setting) {
  const std::vector<double> log_ohm = log_ohms(setting);
  std::vector<Observation> out;
  for (std::size_t i = 0; i < log_ohm.size(); ++i) {
    const Fit_reading& reading = setting.measurements.readings[i];
    const auto bounds = measurement_bounds(setting.means, std::exp(log_ohm[i]), 0, reading.ohm_half_digit);
    const Deviation of_ohm[] = {{bounds.meter}, {bounds.leads}, {bounds.rounding}};
    const Deviation of_kelvin[] = {{setting.means.thermometer}, {reading.kelvin_half_digit}};
    Observation one{reading.specimen, reading.kelvin, log_ohm[i], combined_uncertainty(of_kelvin),
                    combined_uncertainty(of_ohm)};
    one.rounding_log = bounds.rounding;
    one.rounding_kelvin = reading.kelvin_half_digit;
    one.resolution_log =
        std::fmax(reading.ohm_half_digit, display_step(setting.means.meter, reading.ohm) / 2) /
        std::exp(log_ohm[i]);
    out.push_back(one);
  }
  return out;
}

Fit_curve curve_for(const Setting& setting, Model_kind model, const std::vector<Observation>& observations) {
  double middle = 0;
  for (const Observation& o : observations) middle += o.log_ohm / static_cast<double>(observations.size());
  return {model, reference_of(model, setting.kelvin), middle};
}

// Where the specimens' B do not differ, one for all leaves more to see outliers by. The richest curve
// decides, so that a bend is not taken for a difference.
bool slopes_differ(const Setting& setting, const std::vector<Observation>& observations) {
  const std::size_t specimens = setting.measurements.specimens.size();
  for (const auto model : {Model_kind::steinhart_hart, Model_kind::beta}) {
    const Fit_curve curve = curve_for(setting, model, observations);
    const auto alike = regress(curve, observations, specimens, false),
               apart = regress(curve, observations, specimens, true);
    if (alike && apart) return chance_of_gain(*alike, *apart) < 0.01;
  }
  return false;
}

std::optional<Worked_fit> worked_out(const Setting& setting, Model_kind model,
                                     const std::vector<Observation>& observations) {
  const std::size_t specimens = setting.measurements.specimens.size();
  const Fit_curve curve = curve_for(setting, model, observations);
  auto regression = regress(curve, observations, specimens, setting.own_slopes);
  if (!regression) return std::nullopt;
  auto apart = setting.can_tell_slopes ? regress(curve, observations, specimens, true) : std::nullopt;
  return Worked_fit{curve,
                    std::move(*regression),
                    std::move(apart),
                    observations,
                    specimens,
                    reference_of(model, setting.kelvin),
                    setting.kelvin,
                    setting.means};
}

Places outliers_of(const Setting& setting, const Worked_fit& work) {
  return outlying_readings(work.curve, work.observations, work.specimens, setting.own_slopes,
                           false_alarms(setting.means, work.specimens).readings);
}

Fit_trial trial_of(const Worked_fit& work, Model_kind model) {
  Fit_trial trial;
  trial.model = model;
  trial.chi_square = work.regression.chi_square;
  trial.freedom = work.regression.freedom;
  trial.worst_kelvin = work.observations.front().kelvin;
  for (std::size_t i = 0; i < work.observations.size(); ++i)
    if (const double share = work.regression.residuals[i]; std::fabs(share) > std::fabs(trial.worst_share)) {
      trial.worst_share = share;
      trial.worst_kelvin = work.observations[i].kelvin;
    }
  return trial;
}

// The only one that was tried, since it was asked for.
std::optional<Worked_fit> asked_for(Model_kind model, std::optional<Worked_fit> work, Fit& fit) {
  fit.model = model;
  if (work) {
    fit.trials.push_back(trial_of(*work, model));
    fit.trials.back().chosen = true;
    fit.trials.back().why = "asked for";
  }
  return work;
}

// What lies within its own bounds as chance has it needs no other curve.
bool needs_steinhart_hart(const Worked_fit& beta, const Worked_fit& hart) {
  const bool suspect =
      beta.regression.freedom > 0 &&
      chi_square_above(beta.regression.chi_square, static_cast<double>(beta.regression.freedom)) < 0.05;
  return suspect && chance_of_gain(beta.regression, hart.regression) < 0.01 &&
         third_coefficient_is_real(hart);
}

void keep_beside(Worked_fit& beta, const Worked_fit& hart) {
  if (chance_of_gain(beta.regression, hart.regression) < 0.01)
    beta.beside = Curve_beside{hart.curve, hart.regression.curve};
}

// Whether the third coefficient does more than chance would: an F test, by which it is beta where that
// coefficient is 0. What the richer curve calls an outlier does not take part, where enough readings are
// left: of few, the rest always fits it too well. Says so of the two trials.
bool bends(const Setting& setting, std::vector<Observation> observations, const Worked_fit& hart, Fit& fit) {
  constexpr std::size_t enough = 20;
  Places outliers = hart.regression.freedom < enough ? Places() : outliers_of(setting, hart);
  std::sort(outliers.rbegin(), outliers.rend());
  for (const std::size_t i : outliers)
    observations.erase(observations.begin() + static_cast<std::ptrdiff_t>(i));
  const auto beta_kept = worked_out(setting, Model_kind::beta, observations),
             hart_kept = worked_out(setting, Model_kind::steinhart_hart, observations);
  const bool comparable = beta_kept && hart_kept;
  const double chance = comparable ? chance_of_gain(beta_kept->regression, hart_kept->regression) : 1;
  const bool better = chance < 0.01, real = better && third_coefficient_is_real(*hart_kept);
  fit.trials[real ? 1 : 0].chosen = true;
  fit.trials[0].why =
      real ? fmt::format("does not do: {}", pattern_words(*beta_kept))
      : better
          ? fmt::format(
                "a third coefficient would fit better (F test, p = {:.1g}), but by no more than meter, "
                "leads, thermometer and rounding may be off",
                chance)
          : fmt::format("a third coefficient fits no better than chance would (F test, p = {:.2g})", chance);
  fit.trials[1].why =
      real ? fmt::format("fits better than chance would in 1 of 100 tables (F test, p = {:.1g})", chance)
           : "not needed";
  return real;
}

// The model that was asked for, else beta, or Steinhart-Hart where that does more than chance would.
std::optional<Worked_fit> chosen_thermistor(const Setting& setting, const Fit_request& request,
                                            const std::vector<Observation>& observations, Fit& fit) {
  auto beta = worked_out(setting, Model_kind::beta, observations);
  auto hart = worked_out(setting, Model_kind::steinhart_hart, observations);
  if (beta && hart) keep_beside(*beta, *hart);
  if (request.model == Model_kind::beta || !beta) {
    if (beta && hart && needs_steinhart_hart(*beta, *hart)) fit.curve_fits = false;
    return asked_for(Model_kind::beta, std::move(beta), fit);
  }
  if (request.model == Model_kind::steinhart_hart)
    return asked_for(Model_kind::steinhart_hart, std::move(hart), fit);
  fit.trials.push_back(trial_of(*beta, Model_kind::beta));
  std::vector<double> kelvin;
  for (const Observation& o : observations) kelvin.push_back(o.kelvin);
  const std::size_t temperatures = told_apart(kelvin, setting.means.thermometer);
  if (!hart || temperatures < 3 || hart->regression.freedom == 0) {
    fit.trials.back().chosen = true;
    fit.trials.back().why =
        temperatures < 3 ? fmt::format("whether Steinhart-Hart would fit better takes readings at three "
                                       "temperatures or more that the "
                                       "thermometer tells apart, and here are {}",
                                       temperatures)
        : hart
            ? std::string("whether Steinhart-Hart would fit better takes more readings than it has numbers")
            : std::string("Steinhart-Hart finds no curve through the readings");
    return beta;
  }
  fit.trials.push_back(trial_of(*hart, Model_kind::steinhart_hart));
  const bool by_hart = bends(setting, observations, *hart, fit);
  fit.model = by_hart ? Model_kind::steinhart_hart : Model_kind::beta;
  return by_hart ? hart : beta;
}

void describe_readings(Fit& fit, const Setting& setting, const Worked_fit& work) {
  const Regression& regression = work.regression;
  const auto values = studentised(regression);
  for (std::size_t i = 0; i < values.size(); ++i) {
    Fit_residual residual;
    residual.share = regression.residuals[i];
    residual.fitted = std::exp(work.observations[i].log_ohm - residual.share);
    if (const double slope = regression.slopes_at[i]; slope != 0) residual.kelvin = residual.share / slope;
    residual.studentised = values[i];
    fit.residuals.push_back(residual);
  }
  for (const std::size_t i : outliers_of(setting, work)) fit.residuals[i].outlier = true;

  std::vector<double> shares;
  for (std::size_t s = 0; s < work.specimens; ++s)
    shares.push_back(without_noise(regression.specimen_off(work.curve, s, work.reference)));
  // A specimen's readings may be rounded alike: their number takes nothing off.
  std::vector<double> resolutions(work.specimens);
  for (std::size_t i = 0; i < values.size(); ++i) {
    double& most = resolutions[work.observations[i].specimen];
    most = std::fmax(most, regression.resolutions[i]);
  }
  const auto among = studentised(shares, resolutions);
  const auto far = farthest(among, static_cast<double>(work.specimens) - 2,
                            false_alarms(setting.means, work.specimens).specimens);
  for (std::size_t s = 0; s < work.specimens; ++s)
    fit.specimens.push_back({shares[s], 0, among[s], far == s});
  for (const Observation& o : work.observations) ++fit.specimens[o.specimen].readings;
}

void describe_parameters(Fit& fit, const Worked_fit& work) {
  const auto here = work.curve.at(work.regression.curve, work.reference);
  if (!here) return;
  const std::size_t count = work.curve.parameters();
  const double ohm = std::exp(here->log_ohm);
  const double share =
      work.expanded_uncertainty(std::span(here->by_parameter).first(count), work.spread(work.reference));
  fit.parameters.push_back(
      {fit.model == Model_kind::iec_60751 ? "r0" : "resistance", ohm, ohm * share, Dimension::resistance});
  if (fit.model == Model_kind::beta) {
    const double weights[] = {0, 1};
    fit.parameters.push_back({"b_value", work.regression.curve[1],
                              work.expanded_uncertainty(weights, work.spread_of_slopes()),
                              Dimension::thermal_constant});
  }
  if (fit.model == Model_kind::steinhart_hart) {
    const Steinhart_hart c = work.curve.coefficients(work.regression.curve);
    const auto by = work.curve.coefficients_by_parameter();
    fit.parameters.push_back({"a", c.a, work.expanded_uncertainty(by[0], 0), Dimension::per_kelvin});
    fit.parameters.push_back({"b", c.b, work.expanded_uncertainty(by[1], 0), Dimension::per_kelvin});
    fit.parameters.push_back({"c", c.c, work.expanded_uncertainty(by[2], 0), Dimension::per_kelvin});
  }
}

// What is written as the nominal: four digits; of platinum and resistors the usual value that it is for.
double nominal_of(const Fit& fit, const Worked_fit& work) {
  const double ohm = fit.parameters.front().value;
  const double doubt =
      std::fmax(fit.parameters.front().uncertainty / ohm, 0.0025); // class C at 0 °C is 0.0024
  if (fit.model == Model_kind::iec_60751)
    for (const double usual : rules::usual_r0)
      if (std::fabs(std::log(ohm / usual)) <= doubt) return usual;
  if (fit.request.kind == Component_kind::resistor || fit.request.kind == Component_kind::coding) {
    const double preferred = rules::nearest_preferred(rules::E_series::e24, ohm);
    const auto tolerance = tolerance_of(work, fit.model, ohm);
    if (std::fabs(std::log(ohm / preferred)) <= (tolerance ? tolerance->share : doubt)) return preferred;
  }
  const auto written = parse_quantity(describe(ohm, Dimension::resistance, 4), Dimension::resistance);
  return written.value ? written.value->si : ohm;
}

bool is_thermistor(const Fit_request& request) { return model_of(request.kind) == Model_kind::beta; }

std::string problem_of(const Fit_means& means) {
  if (!is_magnitude(means.thermometer))
    return fmt::format("a thermometer of ± {} K is none", means.thermometer);
  for (const double share : {means.content, means.confidence, means.false_alarms})
    if (!(share > 0 && share < 1))
      return fmt::format("{} is no share of parts, no confidence and no rate: those are above 0 and below 1",
                         share);
  return no_such_means(means.meter, means.leads);
}

// Why nothing is fitted to such a request, whatever the readings say.
std::string problem_of(const Measurements& measurements, const Fit_request& request) {
  if (std::string problem = problem_of(request.means); !problem.empty()) return problem;
  const auto usual = model_of(request.kind);
  if (!usual)
    return fmt::format(
        "a {} has no curve that is fitted; known are ntc, rtd, coil, winding, transformer, heater, resistor "
        "and coding",
        word_of(request.kind));
  if (request.model && *request.model != *usual &&
      !(*usual == Model_kind::beta && *request.model == Model_kind::steinhart_hart))
    return fmt::format("the readings of kind {} are fitted by {}, not by {}", word_of(request.kind),
                       word_of(*usual), word_of(*request.model));
  if (is_date(request.date))
    if (std::string problem = calendar_problem(request.date); !problem.empty()) return problem;
  // Of a table that was read they always are there.
  for (const Fit_reading& reading : measurements.readings)
    if (reading.specimen >= measurements.specimens.size())
      return fmt::format("the reading of row {} is of specimen {}, counted from 0, and there are {}",
                         reading.place.row, reading.specimen, measurements.specimens.size());
  return measurements.readings.empty() ? "there are no readings to fit a curve to" : "";
}

Interval range_of(const std::vector<Fit_reading>& readings) {
  Interval kelvin = {readings.front().kelvin, readings.front().kelvin};
  for (const Fit_reading& reading : readings) kelvin = hull(kelvin, Interval{reading.kelvin, reading.kelvin});
  return kelvin;
}

// The curve by which the readings are described.
std::optional<Worked_fit> chosen_fit(Setting& setting, const Fit_request& request, Model_kind model,
                                     Fit& fit) {
  const std::vector<Observation> observations = observations_of(setting);
  setting.own_slopes = setting.can_tell_slopes && slopes_differ(setting, observations);
  if (is_thermistor(request)) return chosen_thermistor(setting, request, observations, fit);
  auto work = worked_out(setting, model, observations);
  if (!work) return work;
  if (const auto bend = bend_of(*work, model); bend && bend->probability < 0.01) work->beside = bend->curve;
  fit.model = model;
  fit.trials.push_back(trial_of(*work, model));
  fit.trials.back().chosen = true;
  return work;
}

void describe(Fit& fit, const Setting& setting, const Worked_fit& work) {
  fit.own_slopes = work.apart.has_value();
  fit.reference = work.reference;
  fit.chi_square = work.regression.chi_square;
  fit.freedom = work.regression.freedom;
  describe_readings(fit, setting, work);
  describe_parameters(fit, work);
  fit.nominal = nominal_of(fit, work);
  const auto bend = is_thermistor(fit.request) ? std::nullopt : bend_of(work, fit.model);
  if ((bend && bend->is_real()) || scatters_beyond_bounds(work.regression)) fit.curve_fits = false;
  if (fit.curve_fits)
    fit.tolerance = tolerance_of(work, fit.model, fit.nominal);
  else
    fit.doubtful = true;
  add_remarks(fit, work);
}

}

Fit_result fit_part(const Measurements& measurements, const Fit_request& request) {
  Fit_result result;
  result.problem = problem_of(measurements, request);
  if (!result.problem.empty()) return result;
  const Model_kind model = request.model.value_or(*model_of(request.kind));
  result.findings = refused_before(measurements, request, model);
  if (!result.findings.empty()) return result;

  Fit fit;
  fit.request = request;
  fit.measurements = measurements;
  fit.kelvin = range_of(measurements.readings);
  Setting setting = {measurements, request.means, fit.kelvin,
                     is_thermistor(request) && have_own_slopes(measurements, request.means.thermometer),
                     false};
  const auto work = chosen_fit(setting, request, model, fit);
  if (!work) {
    result.problem = fmt::format("{}: {} readings do not determine {} of {}; take more readings, at more "
                                 "temperatures of one specimen",
                                 measurements.file, measurements.readings.size(), word_of(model),
                                 counted(measurements.specimens.size(), "specimen"));
    return result;
  }
  result.findings = refused_after(measurements, *work, fit.model);
  if (!result.findings.empty()) return result;
  describe(fit, setting, *work);
  if (const std::string unreadable = write_part(fit); unreadable.empty())
    result.fit = std::move(fit);
  else
    result.problem = fmt::format("the part could not be read back: {}", unreadable);
  return result;
}

}
