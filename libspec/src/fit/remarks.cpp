#include "fit/remarks.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "fit/distributions.h"
#include "fit/outliers.h"
#include "lint/rule.h"
#include "text/small_letters.h"

namespace ohmlore {
namespace {

using namespace rules;

// What is uncertain is told by two digits.
std::string doubt(double share) { return describe(share, Dimension::ratio, 2); }

std::string specimen_words(const Fit& fit, std::size_t specimen) {
  const std::string& name = fit.measurements.specimens[specimen];
  return name.empty() ? std::string() : fmt::format(", specimen {}", printable(name));
}

void about_outliers(Fit& fit) {
  for (std::size_t i = 0; i < fit.residuals.size(); ++i) {
    if (!fit.residuals[i].outlier) continue;
    const Fit_reading& reading = fit.measurements.readings[i];
    fit.doubtful = true;
    fit.remarks.push_back(fmt::format(
        "outlier: row {}{}: {} at {} lies {} beside its curve, which gives {}; measure it again, or remove "
        "the row for "
        "a reason that you can name. It is still in the fit",
        reading.place.row, specimen_words(fit, reading.specimen), ohm(reading.ohm), celsius(reading.kelvin),
        signed_percent(fit.residuals[i].share), ohm(fit.residuals[i].fitted + fit.request.means.leads.ohm)));
  }
  for (std::size_t s = 0; s < fit.specimens.size(); ++s) {
    if (!fit.specimens[s].outlier) continue;
    fit.doubtful = true;
    fit.remarks.push_back(fmt::format("outlier: specimen {} lies {} beside the mean of all, farther than the "
                                      "others spread; look whether it is good "
                                      "and of the same type. It is still in the fit",
                                      printable(fit.measurements.specimens[s]),
                                      signed_percent(fit.specimens[s].share)));
  }
}

// Taken for two, one specimen would make the tolerance smaller than its readings allow.
void about_names(Fit& fit) {
  std::map<std::string, std::string_view> known;
  for (const std::string& name : fit.measurements.specimens) {
    const auto [alike, is_new] = known.emplace(small_letters(name), name);
    if (is_new) continue;
    fit.doubtful = true;
    fit.remarks.push_back(
        fmt::format("specimens {} and {} are named alike but for capital letters, and count as "
                    "two: where they are one, write its name the same way in every row",
                    quoted(alike->second), quoted(name)));
  }
}

// Few specimens name no outlier, and no type is made so that its parts differ by this factor (common
// practice, no source).
constexpr double of_one_type = 2;

void about_types(Fit& fit) {
  const auto less = [](const Fit_specimen& a, const Fit_specimen& b) { return a.share < b.share; };
  const auto [low, high] = std::minmax_element(fit.specimens.begin(), fit.specimens.end(), less);
  if (low == fit.specimens.end() || high->share - low->share <= std::log(of_one_type)) return;
  const auto name = [&](const Fit_specimen& one) {
    return printable(fit.measurements.specimens[static_cast<std::size_t>(&one - fit.specimens.data())]);
  };
  fit.doubtful = true;
  fit.remarks.push_back(
      fmt::format("outlier: specimen {} has {:.1f} times the resistance of specimen {}: look "
                  "for an Ω that is a kΩ, and whether they are of one type. Both are still in "
                  "the fit",
                  name(*high), std::exp(high->share - low->share), name(*low)));
}

// Two lots or two types in one table: their spread says nothing of the parts of either.
void about_groups(Fit& fit, const Worked_fit& work) {
  const Regression& by = work.apart ? *work.apart : work.regression;
  const auto& resolutions = work.regression.resolutions;
  std::vector<double> at = {work.reference};
  if (work.apart) at.insert(at.end(), {work.kelvin.low, work.kelvin.high});
  Two_groups found;
  double kelvin = 0;
  for (const double t : at) {
    std::vector<double> off;
    for (std::size_t s = 0; s < work.specimens; ++s)
      off.push_back(without_noise(by.specimen_off(work.curve, s, t)));
    const auto groups = two_groups(off, *std::max_element(resolutions.begin(), resolutions.end()));
    if (groups && groups->chance < found.chance) found = *groups, kelvin = t;
  }
  const double chance = found.chance * static_cast<double>(at.size());
  if (!(chance < false_alarms(fit.request.means, work.specimens).groups)) return;
  std::vector<std::string> names;
  for (const std::size_t s : found.smaller) names.push_back(printable(fit.measurements.specimens[s]));
  fit.doubtful = true;
  fit.remarks.push_back(fmt::format(
      "outlier: {} of {} specimens ({}) lie {} beside the others at {}, and within these two groups they "
      "spread by {} only (Student's t over all ways to part them, p = {:.1g}): look whether all are of one "
      "type and were measured in one way; if so, measure some of other lots. This fit takes them for one "
      "group",
      found.smaller.size(), work.specimens, listed(names), signed_percent(found.off), celsius(kelvin),
      doubt(without_noise(found.within)), chance));
}

void about_misfit(Fit& fit, const Worked_fit& work) {
  if (fit.curve_fits) return;
  fit.remarks.push_back(fmt::format(
      "no curve that fits: the readings do not follow {} within what meter, leads and thermometer "
      "may be off ({}), so no tolerance is claimed; look at the thermometer and the part, {}",
      word_of(fit.model), pattern_words(work),
      fit.request.model == Model_kind::beta ? "or leave out --model beta" : "or name another --kind"));
}

// Digits that were left out when the table was written, where that costs more than the instrument itself.
void about_digits(Fit& fit, const Worked_fit& work) {
  const auto& readings = fit.measurements.readings;
  double half_kelvin = 0, half_ohm = 0, of_meter = 0;
  std::size_t coarse = 0, coarse_ohm = 0;
  std::uint32_t first = 0, first_ohm = 0;
  for (const Fit_reading& reading : readings) {
    if (reading.kelvin_half_digit > work.means.thermometer) {
      if (coarse++ == 0) first = reading.place.row;
      half_kelvin = std::fmax(half_kelvin, reading.kelvin_half_digit);
    }
    const auto bounds = measurement_bounds(work.means, reading.ohm, 0, reading.ohm_half_digit);
    if (bounds.rounding > bounds.meter) {
      if (coarse_ohm++ == 0) first_ohm = reading.place.row;
      if (reading.ohm_half_digit > half_ohm) {
        half_ohm = reading.ohm_half_digit;
        of_meter = bounds.meter * reading.ohm;
      }
    }
  }
  if (coarse > 0)
    fit.remarks.push_back(fmt::format(
        "{} of {} temperatures, the first in row {}, are written so coarsely that each may be off by ± {} "
        "for "
        "that alone, where the thermometer is off by ± {}: write every digit that it showed, 20.0 °C and not "
        "20 °C, or measure again with a finer display",
        coarse, readings.size(), first, kelvin(half_kelvin), kelvin(work.means.thermometer)));
  if (coarse_ohm > 0)
    fit.remarks.push_back(fmt::format(
        "{} of {} readings, the first in row {}, are written so coarsely that they may be off by up to ± {} "
        "for that alone, where the meter is off by ± {} there: write every digit that it showed",
        coarse_ohm, readings.size(), first_ohm, ohm(half_ohm), ohm(of_meter)));
}

void about_scatter(Fit& fit) {
  if (fit.freedom == 0) {
    fit.remarks.push_back(
        "there are as many readings as the curves have numbers: nothing shows whether they fit; "
        "take more readings");
    return;
  }
  const double freedom = static_cast<double>(fit.freedom), ratio = std::sqrt(fit.chi_square / freedom);
  if (chi_square_above(fit.chi_square, freedom) < 0.01)
    fit.remarks.push_back(fmt::format("the readings scatter {:.3g} times as much as meter and thermometer "
                                      "explain (chi-square {:.4g} at {} degrees of "
                                      "freedom): look for draughts, self-heating, a sensor that was not yet "
                                      "as warm as the bath. The uncertainties "
                                      "count it in",
                                      ratio, fit.chi_square, fit.freedom));
  else if (chi_square_below(fit.chi_square, freedom) < 0.01)
    fit.remarks.push_back(fmt::format(
        "the readings scatter {:.2g} times as much as meter and thermometer may be off: what is wrong with "
        "these is then common to all readings, and does not show in the residuals. The uncertainties and "
        "the tolerance count it in",
        ratio));
}

// What the widening by the measurement comes from, and what a better one would make of it.
void about_measurement(Fit& fit, const Worked_fit& work) {
  const Fit_tolerance& tolerance = *fit.tolerance;
  if (tolerance.measurement < tolerance.factor * tolerance.spread) return;
  const auto bounds = measurement_bounds(work.means, std::exp(work.log_ohm(tolerance.kelvin)),
                                         work.per_kelvin(tolerance.kelvin));
  fit.remarks.push_back(fmt::format(
      "of the tolerance ± {} is only what the measurement may be off at {} (thermometer ± {}: "
      "{}, meter {}, leads {}, rounding of readings and temperatures {}{}): "
      "the parts may be better than this says",
      doubt(tolerance.measurement), celsius(tolerance.kelvin), kelvin(work.means.thermometer),
      doubt(bounds.thermometer), doubt(bounds.meter), doubt(bounds.leads),
      doubt(work.rounding(tolerance.kelvin)),
      work.beside ? fmt::format(", a bend that these may hide {}", doubt(work.bend(tolerance.kelvin))) : ""));
}

// The part document states another value than the mean that is shown: the band lies around that.
void about_nominal(Fit& fit) {
  if (fit.model == Model_kind::steinhart_hart) return; // its first number is no resistance
  const double mean = fit.parameters.front().value;
  if (ohm(fit.nominal) == ohm(mean)) return;
  fit.remarks.push_back(
      fmt::format("the part document states {}, the usual value nearest to this mean, {} "
                  "beside it{}",
                  ohm(fit.nominal), doubt(std::fabs(std::log(fit.nominal / mean))),
                  fit.tolerance ? ": the tolerance lies around that, wider by as much" : ""));
}

void about_class(Fit& fit, const Worked_fit& work) {
  const Off_kelvin off = most_beyond_class_c(work, fit.tolerance->factor, fit.nominal);
  const double class_c = rtd_class_tolerance(Rtd_class::c, off.kelvin - zero_celsius);
  const Rtd_class_range range = rtd_class_range(Rtd_class::c);
  fit.remarks.push_back(
      off.half_width > class_c
          ? fmt::format("no class of IEC 60751 can be claimed: the tolerance is ± {} at {}, and class C ± {}",
                        kelvin(off.half_width), celsius(off.kelvin), kelvin(class_c))
          : fmt::format(
                "no class of IEC 60751 can be claimed: class C holds from {}, and measured was from {}",
                celsius(Interval{range.wire_low + zero_celsius, range.wire_high + zero_celsius}),
                celsius(fit.kelvin)));
}

void about_tolerance(Fit& fit, const Worked_fit& work) {
  const Fit_means& means = work.means;
  const auto factor = [&](std::size_t n) {
    return fmt::format("{:.3g}", tolerance_factor(n, means.content, means.confidence));
  };
  if (work.specimens == 1) {
    const Fit_parameter& r = fit.parameters.front();
    fit.remarks.push_back(fmt::format("one specimen was measured: how far parts differ is not known, so no "
                                      "tolerance is claimed, and the part document "
                                      "states none. Its {} at {} are known to ± {}. Measure five or "
                                      "more: the spread then counts {} times, of "
                                      "ten {} times",
                                      ohm(r.value), celsius(fit.reference), doubt(r.uncertainty / r.value),
                                      factor(5), factor(10)));
    return;
  }
  if (!fit.curve_fits) return;
  if (!fit.tolerance) {
    fit.remarks.push_back(
        fmt::format("{} specimens leave a tolerance of 100 % or more: none is claimed; measure "
                    "more of them (the spread counts {} times, of ten {} times)",
                    work.specimens, factor(work.specimens), factor(10)));
    return;
  }
  if (work.specimens < 5)
    fit.remarks.push_back(fmt::format("{} specimens say little of all others: their spread counts {} times, "
                                      "of five {} times, of ten {} times",
                                      work.specimens, factor(work.specimens), factor(5), factor(10)));
  about_measurement(fit, work);
  if (fit.model == Model_kind::beta && !fit.own_slopes)
    fit.remarks.push_back(
        "not every specimen was read at three temperatures, so how far their B differs is not known: no "
        "b_tolerance is claimed, and the tolerance holds over the measured temperatures only");
  if (fit.model == Model_kind::iec_60751 && !fit.tolerance->tolerance_class) about_class(fit, work);
}

void about_bend(Fit& fit, const Worked_fit& work) {
  if (fit.model == Model_kind::beta || fit.model == Model_kind::steinhart_hart) return;
  Fit_trial& trial = fit.trials.back();
  const auto bend = bend_of(work, fit.model);
  if (!bend) {
    trial.why = fmt::format(
        "{}; {} do not show it",
        fit.model == Model_kind::fixed ? "the kind is taken for fixed" : "its shape is known",
        fit.kelvin.width() > 0 ? "so few readings of each specimen" : "readings at one temperature");
    return;
  }
  const auto slope = [](double value) { return describe(value, Dimension::ratio, 3); };
  if (bend->probability < 0.01 && !bend->is_real()) {
    trial.why = fmt::format(
        "another slope would fit better (F test, p = {:.1g}), but by no more than meter, leads, thermometer "
        "and rounding may be off",
        bend->probability);
    return;
  }
  if (bend->probability >= 0.01) {
    trial.why =
        fmt::format("the readings do not ask for another slope (F test, p = {:.2g})", bend->probability);
    return;
  }
  fit.doubtful = true;
  trial.why = fmt::format("does not do: {}", pattern_words(work));
  fit.remarks.push_back(fmt::format(
      "the readings change by {} per kelvin at {}, where {} changes by {} (F test, p = {:.1g}): {}",
      slope(bend->per_kelvin), celsius(work.reference), word_of(fit.model), slope(bend->of_model),
      bend->probability,
      fit.model == Model_kind::fixed ? "name another --kind, or state at which temperature it holds"
                                     : "look at the thermometer, or the part is of another metal"));
}

}

std::string signed_percent(double logarithm) {
  const double share = std::expm1(logarithm);
  return fmt::format("{}{}", share < 0 ? "" : "+",
                     describe(std::round(share * 1e6) / 1e6, Dimension::ratio, 2));
}

std::string pattern_words(const Worked_fit& work) {
  std::vector<std::size_t> order(work.observations.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  // Stable, so that every standard library cuts readings at one temperature in the same place.
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return work.observations[a].kelvin < work.observations[b].kelvin;
  });
  std::string out = "its residuals run ";
  constexpr std::size_t pieces = 3;
  for (std::size_t piece = 0; piece < pieces; ++piece) {
    const std::size_t first = piece * order.size() / pieces, end = (piece + 1) * order.size() / pieces;
    if (first == end) continue;
    double sum = 0;
    for (std::size_t i = first; i < end; ++i) sum += work.regression.residuals[order[i]];
    out += fmt::format(
        "{}{} from {}", first == 0 ? "" : ", ", signed_percent(sum / static_cast<double>(end - first)),
        celsius(Interval{work.observations[order[first]].kelvin, work.observations[order[end - 1]].kelvin}));
  }
  return out;
}

void add_remarks(Fit& fit, const Worked_fit& work) {
  about_names(fit);
  about_outliers(fit);
  about_types(fit);
  about_groups(fit, work);
  about_bend(fit, work);
  about_misfit(fit, work);
  about_digits(fit, work);
  about_scatter(fit);
  about_nominal(fit);
  about_tolerance(fit, work);
  if (fit.kelvin.width() > 0)
    fit.remarks.push_back(fmt::format("measured from {}: beyond, the curve is not covered by any reading",
                                      celsius(fit.kelvin)));
}

}
