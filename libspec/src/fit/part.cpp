// The part document of a fit: written as text, then read and spelled like any other.
#include <cmath>

#include <fmt/format.h>

#include "fit/worked_out.h"
#include "judge/shown.h"
#include "lint/rule.h"
#include "ohmlore/canonical_json.h"
#include "ohmlore/curve.h"
#include "report/json_writer.h"
#include "text/counted.h"

namespace ohmlore {
namespace {

using rules::percent;

std::string_view usual_name(Component_kind kind) {
  switch (kind) {
  case Component_kind::ntc: return "Temperature sensor";
  case Component_kind::rtd: return "Platinum temperature sensor";
  case Component_kind::coil: return "Coil";
  case Component_kind::winding: return "Winding";
  case Component_kind::transformer: return "Transformer winding";
  case Component_kind::heater: return "Heating element";
  case Component_kind::coding: return "Coding resistor";
  default: return "Resistor";
  }
}

std::string at(double kelvin) { return temperature_text(kelvin, Temperature_unit::celsius); }
std::string at(Interval kelvin) {
  return kelvin.width() > 0 ? fmt::format("{} to {}", at(kelvin.low), at(kelvin.high)) : at(kelvin.low);
}

// As temperatures between which a B is stated are written, where they stay apart so.
Interval whole_degrees(Interval kelvin) {
  const Interval round = {std::round(kelvin.low - zero_celsius) + zero_celsius,
                          std::round(kelvin.high - zero_celsius) + zero_celsius};
  return round.width() > 0 ? round : kelvin;
}

double parameter(const Fit& fit, std::string_view name) {
  for (const Fit_parameter& one : fit.parameters)
    if (one.name == name) return one.value;
  return 0;
}

void write_model(Json_writer& out, const Fit& fit) {
  const std::string nominal = describe(fit.nominal, Dimension::resistance, 4);
  key(out, "model");
  out.StartObject();
  member(out, "kind", word_of(fit.model));
  switch (fit.model) {
  case Model_kind::beta:
    member(out, "resistance", nominal);
    member(out, "at", at(fit.reference));
    member(out, "b_value", fmt::format("{:.0f} K", parameter(fit, "b_value")));
    member(out, "b_between", at(whole_degrees(fit.kelvin)));
    if (fit.tolerance && fit.tolerance->b_share)
      member(out, "b_tolerance", describe(*fit.tolerance->b_share, Dimension::ratio, 2));
    break;
  case Model_kind::steinhart_hart:
    for (const std::string_view name : {"a", "b", "c"})
      member(out, name, fmt::format("{:.7e} K^-1", parameter(fit, name)));
    break;
  case Model_kind::iec_60751:
    member(out, "r0", nominal);
    if (fit.tolerance && fit.tolerance->tolerance_class)
      member(out, "tolerance_class", word_of(*fit.tolerance->tolerance_class));
    break;
  case Model_kind::copper:
    member(out, "resistance", nominal);
    member(out, "at", at(fit.reference));
    break;
  default: member(out, "resistance", nominal); member(out, "at", at(fit.kelvin));
  }
  if (fit.tolerance && fit.model != Model_kind::iec_60751)
    member(out, "tolerance", describe(fit.tolerance->share, Dimension::ratio, 2));
  out.EndObject();
}

// How the numbers came about, for whoever reads the part without the report.
std::string note_of(const Fit& fit) {
  const Fit_means& means = fit.request.means;
  std::string note = fmt::format("fitted to {} of {}, measured at {}; ",
                                 counted(fit.measurements.readings.size(), "reading"),
                                 counted(fit.measurements.specimens.size(), "specimen"), at(fit.kelvin));
  if (!fit.tolerance)
    return note + "no tolerance could be claimed: what the digits leave open is no band of the type";
  if (fit.model == Model_kind::iec_60751 && !fit.tolerance->tolerance_class)
    return note + "no class could be claimed";
  return note +
         fmt::format(
             "the tolerance is a two-sided statistical tolerance interval (content {}, confidence {}, k = "
             "{:.4g}), widened by ± {} that the measurement may be off",
             percent(means.content), percent(means.confidence), fit.tolerance->factor,
             describe(fit.tolerance->measurement, Dimension::ratio, 2));
}

void write_source(Json_writer& out, const Fit& fit) {
  const Fit_means& means = fit.request.means;
  key(out, "sources");
  out.StartObject();
  key(out, "measurement");
  out.StartObject();
  member(out, "kind", "measurement");
  member(out, "instrument",
         fmt::format("{}{}meter ±({} + {:.0f}), {:.0f} counts; thermometer ± {}", fit.request.instrument,
                     fit.request.instrument.empty() ? "" : ": ", percent(means.meter.of_reading),
                     means.meter.counts, means.meter.display_counts, rules::kelvin(means.thermometer)));
  number(out, "samples", fit.measurements.specimens.size());
  member(out, "conditions",
         fmt::format("{} at {}, leads of {} ± {} subtracted",
                     counted(fit.measurements.readings.size(), "reading"), at(fit.kelvin),
                     shown_ohm(means.leads.ohm), shown_ohm(means.leads.half_width)));
  if (!fit.request.date.empty()) member(out, "date", fit.request.date);
  out.EndObject();
  out.EndObject();
  key(out, "source");
  out.StartObject();
  member(out, "from", "measurement");
  out.EndObject();
}

}

std::string write_part(Fit& fit) {
  const std::string name =
      fit.request.name.empty() ? std::string(usual_name(fit.request.kind)) : fit.request.name;
  Json_buffer buffer;
  Json_writer out(buffer);
  out.StartObject();
  member(out, "format", format_tag);
  member(out, "kind", "part");
  member(out, "id", fit.request.id.empty() ? "measured-part" : fit.request.id);
  number(out, "revision", 1);
  member(out, "title",
         fmt::format("{}, {} at {}, from measurements", name, describe(fit.nominal, Dimension::resistance, 4),
                     at(fit.reference)));
  write_source(out, fit);
  key(out, "component");
  out.StartObject();
  member(out, "kind", word_of(fit.request.kind));
  member(out, "name", name);
  write_model(out, fit);
  member(out, "note", note_of(fit));
  out.EndObject();
  out.EndObject();
  const Read_result read = read_json("part.json", {buffer.GetString(), buffer.GetSize()});
  fit.part = canonical_json(read.document);
  for (const Finding& finding : read.findings)
    if (finding.severity == Severity::error) return fmt::format("{}: {}", finding.pointer, finding.message);
  return {};
}

}
