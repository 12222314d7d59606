// A fit shown: as text for people, as JSON for programs, as a picture.
#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "fit/remarks.h"
#include "judge/shown.h"
#include "lint/rule.h"
#include "ohmlore/cautions.h"
#include "ohmlore/curve.h"
#include "report/json_members.h"
#include "report/lines.h"
#include "text/counted.h"
#include "text/small_letters.h"

namespace ohmlore {
namespace {

using namespace rules;

std::string value_words(const Fit_parameter& one) {
  if (one.dimension == Dimension::per_kelvin)
    return fmt::format("{:.7e} K^-1 ± {:.1e} K^-1", one.value, one.uncertainty);
  if (one.dimension == Dimension::resistance)
    return fmt::format("{} ± {}", describe(one.value, one.dimension, 5),
                       describe(one.uncertainty / one.value, Dimension::ratio, 2));
  return fmt::format("{} ± {}", describe(one.value, one.dimension, 5),
                     describe(one.uncertainty, one.dimension, 2));
}

std::string tolerance_words(const Fit& fit) {
  const Fit_means& means = fit.request.means;
  if (!fit.tolerance) return "none can be claimed";
  const Fit_tolerance& t = *fit.tolerance;
  std::string out = fmt::format("± {}", describe(t.share, Dimension::ratio, 2));
  if (t.b_share) out += fmt::format(", and ± {} on B", describe(*t.b_share, Dimension::ratio, 2));
  if (t.tolerance_class) out += fmt::format(", within class {} of IEC 60751", word_of(*t.tolerance_class));
  return out +
         fmt::format(
             ": holds {} of all parts with a confidence of {}; {} × {} (the spread of {} specimens) + {} "
             "(what the measurement may be off) at {}",
             percent(means.content), percent(means.confidence), fmt::format("{:.4g}", t.factor),
             describe(t.spread, Dimension::ratio, 2), t.specimens,
             describe(t.measurement, Dimension::ratio, 2), celsius(t.kelvin));
}

// A table whose columns are as wide as they need be; texts at the left, numbers at the right.
std::string columns(const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths(rows.front().size());
  for (const auto& row : rows)
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], code_points(row[i]));
  std::string out;
  for (const auto& row : rows) {
    out += "  ";
    for (std::size_t i = 0; i < row.size(); ++i) {
      const std::string space(widths[i] - code_points(row[i]), ' ');
      const bool last = i + 1 == row.size();
      out += i == 0 ? row[i] + space : last ? "  " + row[i] : "  " + space + row[i];
    }
    out.erase(out.find_last_not_of(' ') + 1);
    out += '\n';
  }
  return out;
}

std::string residual_table(const Fit& fit) {
  std::vector<std::vector<std::string>> rows = {
      {"row", "temperature", "reading", "curve", "off", "in kelvin", "t", ""}};
  const auto& readings = fit.measurements.readings;
  std::vector<std::size_t> shown(readings.size());
  std::iota(shown.begin(), shown.end(), std::size_t{0});
  constexpr std::size_t most = 60;
  if (shown.size() > most) { // the largest, in the order of the table
    std::partial_sort(shown.begin(), shown.begin() + most, shown.end(), [&](std::size_t a, std::size_t b) {
      return std::fabs(fit.residuals[a].studentised.value_or(0)) >
             std::fabs(fit.residuals[b].studentised.value_or(0));
    });
    shown.resize(most);
    std::sort(shown.begin(), shown.end());
  }
  for (const std::size_t i : shown) {
    const Fit_residual& off = fit.residuals[i];
    const std::string& name = fit.measurements.specimens[readings[i].specimen];
    rows.push_back({fmt::format("{}", readings[i].place.row),
                    temperature_text(readings[i].kelvin, Temperature_unit::celsius),
                    shown_ohm(readings[i].ohm), shown_ohm(off.fitted + fit.request.means.leads.ohm),
                    signed_percent(off.share), off.kelvin == 0 ? "" : fmt::format("{:+.2f} K", off.kelvin),
                    off.studentised ? fmt::format("{:+.1f}", *off.studentised) : "-",
                    off.outlier ? fmt::format("outlier {}", printable(name)) : printable(name)});
  }
  std::string out = columns(rows);
  if (shown.size() < readings.size())
    out += fmt::format("  the {} largest of {}; --format json gives all\n", shown.size(), readings.size());
  return out;
}

}

std::string text_report(const Fit& fit) {
  Lines lines;
  for (const Caution& caution : cautions()) lines.wrapped("! ", caution.text);
  const Fit_means& means = fit.request.means;
  lines.out += fmt::format("\n{}: {} of {}, {}\n", printable(fit.measurements.file),
                           counted(fit.measurements.readings.size(), "reading"),
                           counted(fit.measurements.specimens.size(), "specimen"), celsius(fit.kelvin));
  for (const Fit_trial& trial : fit.trials)
    lines.add(trial.chosen ? "model" : "not",
              fmt::format("{}: {}; {}", word_of(trial.model),
                          trial.why.empty() ? "its shape is known" : trial.why,
                          trial.worst_share == 0
                              ? std::string("no residual")
                              : fmt::format("largest residual {} at {}", signed_percent(trial.worst_share),
                                            celsius(trial.worst_kelvin))));
  for (const Fit_parameter& one : fit.parameters)
    lines.add(one.name, fmt::format("{}{}", value_words(one),
                                    one.name == "resistance" ? " at " + celsius(fit.reference)
                                    : one.name == "r0"       ? " at 0 °C"
                                                             : ""));
  lines.add("tolerance", tolerance_words(fit));
  lines.add("scatter", fmt::format("chi-square {:.4g} at {} of freedom", fit.chi_square,
                                   counted(fit.freedom, "degree")));
  for (const std::string& remark : fit.remarks)
    lines.add(remark.starts_with("outlier: ") ? "outlier" : "note", remark.starts_with("outlier: ")
                                                                        ? std::string_view(remark).substr(9)
                                                                        : std::string_view(remark));
  lines.out += '\n' + residual_table(fit) + '\n';
  lines.wrapped(
      "",
      fmt::format(
          "meter ±({} + {:.0f}), {:.0f} counts; thermometer ± {}; leads {} ± {} subtracted; ± of the model "
          "is a 95 % interval; of 100 tables without a mistake {:.3g} {} something named an outlier",
          percent(means.meter.of_reading), means.meter.counts, means.meter.display_counts,
          kelvin(means.thermometer), shown_ohm(means.leads.ohm), shown_ohm(means.leads.half_width),
          100 * means.false_alarms, means.false_alarms == 0.01 ? "has" : "have"));
  return lines.out;
}

namespace {

void parameter(Json_writer& out, const Fit_parameter& one) {
  member(out, "name", one.name);
  const auto text = [&](double value) {
    return one.dimension == Dimension::per_kelvin ? fmt::format("{:.9e} K^-1", value)
                                                  : describe(value, one.dimension, 9);
  };
  member(out, "value", text(one.value));
  member(out, "uncertainty", text(one.uncertainty));
}

}

std::string json_report(const Fit& fit) {
  const Fit_means& means = fit.request.means;
  return written_report("ohmlore-fit/1.0", [&](Json_writer& out) {
    all_cautions(out);
    member(out, "file", fit.measurements.file);
    word(out, "kind", fit.request.kind);
    word(out, "model", fit.model);
    truth(out, "doubtful", fit.doubtful);
    meter_and_leads(out, means.meter, means.leads);
    kelvins(out, "thermometer", means.thermometer);
    temperature(out, "reference", fit.reference);
    object(out, "measured", [&] {
      temperature(out, "low", fit.kelvin.low);
      temperature(out, "high", fit.kelvin.high);
    });
    list(out, "parameters", fit.parameters, [&](const Fit_parameter& one) { parameter(out, one); });
    list(out, "trials", fit.trials, [&](const Fit_trial& trial) {
      word(out, "model", trial.model);
      truth(out, "chosen", trial.chosen);
      member(out, "chi_square", fmt::format("{:.6g}", trial.chi_square));
      number(out, "freedom", trial.freedom);
      share(out, "worst", std::expm1(trial.worst_share));
      temperature(out, "worst_at", trial.worst_kelvin);
      member(out, "why", trial.why);
    });
    if (fit.tolerance)
      object(out, "tolerance", [&] {
        const Fit_tolerance& t = *fit.tolerance;
        share(out, "stated", t.share);
        if (t.b_share) share(out, "on_b", *t.b_share);
        if (t.tolerance_class) word(out, "tolerance_class", *t.tolerance_class);
        number(out, "specimens", t.specimens);
        share(out, "content", means.content);
        share(out, "confidence", means.confidence);
        member(out, "factor", fmt::format("{:.6g}", t.factor));
        share(out, "spread", t.spread);
        share(out, "measurement", t.measurement);
        temperature(out, "at", t.kelvin);
      });
    share(out, "false_alarms", means.false_alarms);
    list(out, "specimens", fit.specimens, [&](const Fit_specimen& one) {
      member(out, "name", fit.measurements.specimens[static_cast<std::size_t>(&one - fit.specimens.data())]);
      number(out, "readings", one.readings);
      share(out, "off", std::expm1(one.share));
      if (one.studentised) member(out, "studentised", fmt::format("{:.4g}", *one.studentised));
      truth(out, "outlier", one.outlier);
    });
    list(out, "readings", fit.residuals, [&](const Fit_residual& one) {
      const Fit_reading& reading =
          fit.measurements.readings[static_cast<std::size_t>(&one - fit.residuals.data())];
      number(out, "row", reading.place.row);
      member(out, "specimen", fit.measurements.specimens[reading.specimen]);
      temperature(out, "at", reading.kelvin);
      ohms(out, "shown", reading.ohm);
      ohms(out, "fitted", one.fitted);
      share(out, "off", std::expm1(one.share));
      if (one.kelvin != 0) kelvins(out, "off_kelvin", one.kelvin);
      if (one.studentised) member(out, "studentised", fmt::format("{:.4g}", *one.studentised));
      truth(out, "outlier", one.outlier);
    });
    texts(out, "remarks", fit.remarks);
    member(out, "part", fit.part);
  });
}

std::string fit_svg(const Fit& fit) {
  const Read_result read = read_json("part.json", fit.part);
  const Resolved resolved = resolve(read.document, {});
  Curve_request request;
  request.from = fit.kelvin.low;
  request.to = fit.kelvin.high;
  if (!(fit.kelvin.width() > 0)) request.from = fit.kelvin.low - 5, request.to = fit.kelvin.high + 5;
  if (resolved.components.empty()) return {};
  const Curve_result result = curve_of(resolved.components.front(), request);
  if (!result.curve) return {};
  const double leads = fit.request.means.leads.ohm;
  std::vector<Curve_mark> measured;
  for (const Fit_reading& reading : fit.measurements.readings) {
    const double ohm = reading.ohm - leads;
    measured.push_back({{reading.kelvin, reading.kelvin}, {ohm, ohm}, ohm});
  }
  Curve curve = *result.curve;
  curve.notes.resize(fit.tolerance ? 1 : 0); // what the band is, where there is one
  for (const std::string& remark : fit.remarks) curve.remarks.push_back(with_capital(remark) + '.');
  return curve_svg(curve, measured);
}

}
