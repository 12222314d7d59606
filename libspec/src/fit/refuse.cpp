#include "fit/refuse.h"

#include <algorithm>
#include <cmath>

#include "lint/rule.h"
#include "text/counted.h"

namespace ohmlore {
namespace {

Finding finding_about(const Measurements& measurements, const Fit_place& place, const Region& region,
                      std::string_view rule, std::string message) {
  Finding finding;
  finding.rule = rule;
  finding.file = measurements.file;
  finding.region = region;
  finding.message = std::move(message);
  finding.source_line = place.line;
  return finding;
}

// Two readings of one specimen. There are such: where no specimen was read twice, no slope can be fitted.
struct Pair {
  const Fit_reading* cold = nullptr;
  const Fit_reading* hot = nullptr;
};
// Those that are worst by `how_bad(before, after, cold, hot)`, without the leads.
template <class How_bad>
Pair worst_pair(const Measurements& measurements, double leads, How_bad how_bad) {
  Pair worst = {&measurements.readings.front(), &measurements.readings.back()};
  double most = -INFINITY;
  for (const Fit_reading& cold : measurements.readings)
    for (const Fit_reading& hot : measurements.readings) {
      if (cold.specimen != hot.specimen || !(cold.kelvin < hot.kelvin)) continue;
      const double bad = how_bad(cold.ohm - leads, hot.ohm - leads, cold.kelvin, hot.kelvin);
      if (bad > most) {
        worst = {&cold, &hot};
        most = bad;
      }
    }
  return worst;
}

double rise(double before, double after, double, double) { return after / before; }
double fall(double before, double after, double, double) { return before / after; }
// How far B lies from those of thermistors: the slope of all may come from one mistake.
double beyond_thermistors(double before, double after, double cold, double hot) {
  const double b = std::log(before / after) / (1 / cold - 1 / hot);
  return std::fmax(possible_b.low - b, b - possible_b.high);
}

std::string rises_or_falls(const Pair& pair) {
  return fmt::format("{} at {} (row {}) and {} at {} (row {})", rules::ohm(pair.cold->ohm),
                     rules::celsius(pair.cold->kelvin), pair.cold->place.row, rules::ohm(pair.hot->ohm),
                     rules::celsius(pair.hot->kelvin), pair.hot->place.row);
}

Finding about_pair(const Measurements& measurements, const Pair& pair, std::string_view rule,
                   std::string message) {
  Finding finding =
      finding_about(measurements, pair.hot->place, pair.hot->place.resistance, rule, std::move(message));
  finding.related.push_back({measurements.file, pair.cold->place.resistance, "the colder reading"});
  return finding;
}

}

std::optional<Model_kind> model_of(Component_kind kind) {
  switch (kind) {
  case Component_kind::ntc: return Model_kind::beta;
  case Component_kind::rtd: return Model_kind::iec_60751;
  case Component_kind::coil:
  case Component_kind::winding:
  case Component_kind::transformer: return Model_kind::copper;
  case Component_kind::resistor:
  case Component_kind::coding:
  case Component_kind::heater: return Model_kind::fixed;
  default: return std::nullopt;
  }
}

std::size_t told_apart(std::vector<double> kelvin, double half_width) {
  std::sort(kelvin.begin(), kelvin.end());
  const double apart = std::fmax(2 * half_width, 0.2);
  std::size_t count = 0;
  double last = 0;
  for (const double t : kelvin)
    if (count == 0 || t - last > apart) last = t, ++count;
  return count;
}

std::vector<Finding> refused_before(const Measurements& measurements, const Fit_request& request,
                                    Model_kind model) {
  std::vector<Finding> findings;
  const Fit_means& means = request.means;
  std::vector<double> kelvin;
  for (const Fit_reading& reading : measurements.readings) {
    kelvin.push_back(reading.kelvin);
    if (reading.ohm > means.leads.ohm) continue;
    findings.push_back(finding_about(
        measurements, reading.place, reading.place.resistance, "measurements-unfit",
        fmt::format(
            "{} in row {} is not above the {} of the leads, which is subtracted; say with --leads what "
            "they read, 0 where they were nulled",
            rules::ohm(reading.ohm), reading.place.row, rules::ohm(means.leads.ohm))));
  }
  if (!findings.empty()) return findings;
  std::size_t needed = 1;
  std::string_view why;
  if (model == Model_kind::beta) needed = 2, why = "B is the slope between two temperatures";
  if (model == Model_kind::steinhart_hart) needed = 3, why = "Steinhart-Hart has three coefficients";
  if (model == Model_kind::iec_60751)
    needed = 2, why = "at one temperature nothing shows that it is platinum of IEC 60751";
  const std::size_t found = told_apart(kelvin, means.thermometer);
  if (found < needed) {
    const auto [low, high] = std::minmax_element(kelvin.begin(), kelvin.end());
    const Fit_place& place = measurements.readings.front().place;
    findings.push_back(finding_about(
        measurements, place, place.temperature, "measurements-unfit",
        fmt::format("the readings are at {}, and a thermometer of ± {} tells {} apart there: {} "
                    "takes {} or more, since {}; measure at others too",
                    rules::celsius(Interval{*low, *high}), rules::kelvin(means.thermometer),
                    counted(found, "temperature"), word_of(request.kind), needed, why)));
  }
  return findings;
}

std::vector<Finding> refused_after(const Measurements& measurements, const Worked_fit& work,
                                   Model_kind model) {
  std::vector<Finding> findings;
  const double leads = work.means.leads.ohm;
  if (model == Model_kind::beta || model == Model_kind::steinhart_hart) {
    const double middle = work.kelvin.middle(), b = -work.per_kelvin(middle) * middle * middle;
    const double whole = std::round(b); // of readings that stay the same, more is noise of the computation
    if (!(whole >= 0)) {
      const Pair pair = worst_pair(measurements, leads, rise);
      findings.push_back(about_pair(
          measurements, pair, "ntc-rises",
          fmt::format("the readings rise: {}, where the resistance of an NTC falls as it gets warmer; look "
                      "whether temperatures or specimens are exchanged, or name another --kind",
                      rises_or_falls(pair))));
    } else if (!possible_b.contains(b)) {
      const Pair pair = worst_pair(measurements, leads, beyond_thermistors);
      findings.push_back(about_pair(
          measurements, pair, "ntc-b-impossible",
          fmt::format(
              "the readings give B = {}, and no thermistor lies outside of {} to {}: {}; look at the units, "
              "at the temperatures, and whether the sensor is bare",
              rules::kelvin(whole), rules::kelvin(possible_b.low), rules::kelvin(possible_b.high),
              rises_or_falls(pair))));
    }
    return findings;
  }
  if (model == Model_kind::fixed) return findings;
  const auto bend = bend_of(work, model);
  if (bend && bend->is_real() && bend->per_kelvin <= 0) {
    const Pair pair = worst_pair(measurements, leads, fall);
    findings.push_back(about_pair(
        measurements, pair, "measurements-unfit",
        fmt::format("the readings fall: {}, where the resistance of {} rises by {} per kelvin; look whether "
                    "temperatures are exchanged, or name another --kind",
                    rises_or_falls(pair), model == Model_kind::copper ? "copper" : "platinum",
                    describe(bend->of_model, Dimension::ratio, 2))));
  }
  return findings;
}

}
