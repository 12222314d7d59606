#include "ohmlore/curve.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "exchange/csv_text.h"
#include "exchange/numbers.h"
#include "job/curve_notes.h"
#include "job/curve_points.h"
#include "job/temperature_units.h"
#include "lint/measured.h"
#include "lint/rule.h"
#include "ohmlore/cautions.h"
#include "physics/thresholds.h"
#include "text/counted.h"
#include "units/outward.h"

namespace ohmlore {
namespace {

using rules::kelvin, rules::ohm;

constexpr Interval point(double x) { return {x, x}; }

// Where neither model nor component says anything: usual sensors of heating (practice).
constexpr Interval usual_kelvin = {zero_celsius - 20, zero_celsius + 110};
constexpr std::size_t most_points = 10'000;

// The resistance that a model with several states between two terminals.
std::string choose_terminals(Resistance_model& model, const std::string& wanted) {
  std::vector<std::string> known;
  for (const Terminal_pair& pair : model.pairs) {
    if (!pair.from || !pair.to || !pair.resistance) continue;
    known.push_back(fmt::format("{},{}", *pair.from, *pair.to));
    const std::string reversed = fmt::format("{},{}", *pair.to, *pair.from);
    if (wanted != known.back() && wanted != reversed) continue;
    model.resistance = pair.resistance;
    return {};
  }
  if (known.empty())
    return wanted.empty() ? std::string() : "the model states one resistance, so no terminals can be chosen";
  if (wanted.empty() && known.size() == 1) {
    model.resistance = model.pairs[0].resistance;
    return {};
  }
  if (wanted.empty() && model.resistance) return {};
  return fmt::format("the model states the resistances between {}: choose {}", rules::listed(known),
                     wanted.empty() ? "one of these pairs with --terminals"
                                    : fmt::format("one of these instead of {}", wanted));
}

std::string tolerance_words(const Value<Tolerance>& tolerance) {
  if (!tolerance) return {};
  const auto side = [&](double value) { return describe(value, tolerance->dimension); };
  return tolerance->minus == tolerance->plus
             ? fmt::format(" ±{}", side(tolerance->plus))
             : fmt::format(" +{} -{}", side(tolerance->plus), side(tolerance->minus));
}

std::string model_words(const Resistance_model& model, Temperature_unit unit) {
  const auto at = [&]() -> std::string {
    if (!model.at) return {};
    const Interval t = kelvin_interval(*model.at);
    return t.width() > 0
               ? fmt::format(" from {} to {}", temperature_text(t.low, unit), temperature_text(t.high, unit))
               : fmt::format(" at {}", temperature_text(t.low, unit));
  };
  const std::string tolerance = tolerance_words(model.tolerance);
  switch (*model.kind) {
  case Model_kind::beta:
    if (!model.resistance || !model.b_value) break;
    return fmt::format("{}{}{}, B {}{}", ohm(model.resistance->si), tolerance, at(),
                       kelvin(model.b_value->si), tolerance_words(model.b_tolerance));
  case Model_kind::steinhart_hart: return "Steinhart-Hart" + tolerance;
  case Model_kind::table: return fmt::format("table of {}", counted(model.rows.size(), "row"));
  case Model_kind::iec_60751:
    if (!model.r0) break;
    return fmt::format("platinum {} after IEC 60751{}", ohm(model.r0->si),
                       model.tolerance_class ? fmt::format(", class {}", word_of(*model.tolerance_class))
                                             : std::string());
  case Model_kind::polynomial:
    if (!model.r0) break;
    return fmt::format("polynomial, {}{} at {}", ohm(model.r0->si), tolerance,
                       temperature_text(zero_celsius, unit));
  case Model_kind::copper:
    if (!model.resistance) break;
    return fmt::format("{}{}{}, {} with k = {}", ohm(model.resistance->si), tolerance, at(),
                       model.metal ? word_of(*model.metal) : "copper", kelvin(copper_k_of(model)));
  case Model_kind::fixed:
    if (!model.resistance) break;
    return fmt::format("{}{}{}", ohm(model.resistance->si), tolerance, at());
  case Model_kind::power:
    if (!model.voltage || !model.power) break;
    return fmt::format("{} at {}{}", describe(model.power->si, Dimension::power),
                       describe(model.voltage->si, Dimension::voltage), tolerance);
  case Model_kind::open: return model.above ? fmt::format("open, at least {}", ohm(model.above->si)) : "open";
  case Model_kind::closed:
    return model.below ? fmt::format("closed, at most {}", ohm(model.below->si)) : "closed";
  }
  return std::string(word_of(*model.kind));
}

std::vector<Curve_mark> stated_by(const Curve& curve) {
  const Resistance_model& model = curve.model;
  std::vector<Curve_mark> marks;
  const auto add = [&](Interval at, const std::optional<Interval>& band, std::optional<double> nominal) {
    if (band) marks.push_back({at, *band, nominal});
  };
  for (const Table_row& row : model.rows)
    if (row.at)
      add(point(row.at->si), row_interval(row), row.nominal ? std::optional(row.nominal->si) : std::nullopt);
  if (model.resistance && model.at)
    if (const Interval at = kelvin_interval(*model.at); model.rows.empty() && at.width() < 300)
      add(at, model_interval(model, at), model.resistance->si);
  if (model.r0) add(point(zero_celsius), model_interval(model, point(zero_celsius)), model.r0->si);
  return marks;
}

// What the model speaks of, else the component; empty: neither says.
std::optional<Interval> stated_range(const Resolved_component& component, const Resistance_model& model) {
  Interval rows = {infinity, -infinity};
  for (const Table_row& row : model.rows)
    if (row.at && row_interval(row)) rows = {std::min(rows.low, row.at->si), std::max(rows.high, row.at->si)};
  if (rows.low <= rows.high) return rows;
  if (const auto range = component.get(&Component_type::temperature_range)) return kelvin_interval(**range);
  return std::nullopt;
}

double round_step(Interval range, Temperature_unit unit) {
  const double span = range.width() * unit_of(unit).per_kelvin;
  for (const double step : {0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0})
    if (span / step <= 30) return step;
  return 200;
}

}

std::string band_text(Interval band) {
  const Interval shown = outward(band);
  const std::string low = limit_text(shown.low), high = limit_text(shown.high);
  if (std::isinf(band.high)) return "at least " + low;
  if (band.low <= 0) return "at most " + high;
  return low == high ? low : fmt::format("{} to {}", low, high);
}

std::optional<Interval> curve_band(const Curve& curve, Interval kelvin) {
  const Resistance_model& model = curve.model;
  if (const auto path = threshold_interval(model)) return path;
  return model_interval(model, kelvin, Taken::literally, curve.between);
}

Curve_point point_at(const Curve& curve, double kelvin) {
  return {kelvin, curve_band(curve, point(kelvin)), nominal_resistance(curve.model, kelvin)};
}

namespace {

// Sets the temperatures of a curve; says what is wrong with those that were asked for.
std::string choose_range(Curve& curve, const Curve_request& request, Interval speaks) {
  curve.kelvin = {request.from.value_or(speaks.low), request.to.value_or(speaks.high)};
  const auto shown = [&](double t) { return temperature_text(t, curve.unit); };
  if (curve.kelvin.low <= curve.kelvin.high)
    return curve.kelvin.low > 0 ? std::string()
                                : fmt::format("{} is not above absolute zero", shown(curve.kelvin.low));
  if (request.from && request.to)
    return fmt::format("{} is above {}; give the lower temperature first", shown(curve.kelvin.low),
                       shown(curve.kelvin.high));
  return request.from ? fmt::format("{} is above {}, where its range ends; say how far to go with --to",
                                    shown(curve.kelvin.low), shown(curve.kelvin.high))
                      : fmt::format("{} is below {}, where its range begins; say where to begin with --from",
                                    shown(curve.kelvin.high), shown(curve.kelvin.low));
}

// The same of its steps.
std::string add_points(Curve& curve, const Curve_request& request) {
  const auto shown = [&](double t) { return temperature_text(t, curve.unit); };
  const double per_kelvin = unit_of(curve.unit).per_kelvin;
  const double step = request.step ? *request.step * per_kelvin : round_step(curve.kelvin, curve.unit);
  const double first = in_unit(curve.kelvin.low, curve.unit), last = in_unit(curve.kelvin.high, curve.unit);
  if (!(step > 0)) return "a step must be above 0";
  if (!((last - first) / step < static_cast<double>(most_points)))
    return fmt::format("steps of {} from {} to {} would be more than {} rows; make them longer, or the "
                       "range shorter",
                       kelvin(step / per_kelvin), shown(curve.kelvin.low), shown(curve.kelvin.high),
                       most_points);
  const double start = request.from || request.step ? first : std::ceil(first / step - 1e-9) * step;
  if (start > first) curve.points.push_back(point_at(curve, curve.kelvin.low));
  const double steps = (last - start) / step + 1e-9;
  for (int i = 0; i <= steps; ++i)
    curve.points.push_back(point_at(curve, kelvin_of(start + i * step, curve.unit)));
  if (!request.to && in_unit(curve.points.back().kelvin, curve.unit) < last)
    curve.points.push_back(point_at(curve, curve.kelvin.high));
  return {};
}

}

Curve_result curve_of(const Resolved_component& component, const Curve_request& request) {
  const auto fail = [](std::string why) { return Curve_result{std::nullopt, std::move(why)}; };
  const std::string name = component.get(&Component_type::name)
                               ? std::string(**component.get(&Component_type::name))
                               : std::string(component.id);
  const auto model = component.get(&Component_type::model);
  if (!model || !model->kind)
    return fail(
        fmt::format("{} states no resistance model, so it has no curve; its tests say what to expect", name));
  Curve curve;
  curve.model = *rules::with_metal(*model, component);
  curve.between = between_rows(component);
  curve.unit = request.unit;
  if (const std::string problem = choose_terminals(curve.model, request.terminals); !problem.empty())
    return fail(problem);
  std::string terminals;
  if (!request.terminals.empty()) terminals = fmt::format(", {}", request.terminals);
  curve.title = fmt::format("{}{}: {}", name, terminals, model_words(curve.model, curve.unit));

  const auto shown = [&](double t) { return temperature_text(t, curve.unit); };
  const auto stated = stated_range(component, curve.model);
  const Interval speaks = stated.value_or(usual_kelvin);
  if (const std::string problem = choose_range(curve, request, speaks); !problem.empty())
    return fail(problem);
  if (const std::string problem = add_points(curve, request); !problem.empty()) return fail(problem);
  if (std::none_of(curve.points.begin(), curve.points.end(),
                   [](const Curve_point& p) { return bool(p.ohm); }))
    return fail(fmt::format(
        "the model says nothing from {} to {}{}", shown(curve.kelvin.low), shown(curve.kelvin.high),
        stated ? fmt::format("; it speaks of {} to {}", shown(speaks.low), shown(speaks.high))
               : std::string()));
  curve.stated = stated_by(curve);
  curve.notes = notes_of(curve, component,
                         !stated && !(request.from && request.to) && depends_on_temperature(curve.model));
  return {std::move(curve), {}};
}

std::optional<Meant_temperature> temperature_meant(const Curve& curve, Interval reading) {
  const Resistance_model& model = curve.model;
  if (!depends_on_temperature(model)) return std::nullopt;
  // Polynomials turn around somewhere; the others are asked as far as they speak.
  Meant_temperature meant;
  meant.within = *model.kind == Model_kind::polynomial || *model.kind == Model_kind::table
                     ? curve.kelvin
                     : Interval{100, 1200};
  meant.kelvin = model_temperatures(model, reading, meant.within, Taken::literally, curve.between);
  if (!meant.kelvin) return meant;
  const double middle = reading.middle();
  const auto above = [&](double t) {
    const auto nominal = nominal_resistance(model, t);
    return nominal ? std::optional(*nominal > middle) : std::nullopt;
  };
  double low = meant.kelvin->low, high = meant.kelvin->high;
  for (const double end : {low, high}) // a row at the end of its table may read just that
    if (nominal_resistance(model, end) == middle) meant.nominal = end;
  if (meant.nominal) return meant;
  const auto at_low = above(low), at_high = above(high);
  if (!at_low || !at_high || *at_low == *at_high) return meant;
  for (int i = 0; i < 100; ++i) {
    const double between = low + (high - low) / 2;
    const auto here = above(between);
    if (!here) return meant;
    (*here == *at_low ? low : high) = between;
  }
  meant.nominal = low;
  return meant;
}

std::string curve_text(const Curve& curve) {
  std::string out = cautions_text() + '\n' + printable(curve.title) + '\n';
  for (const std::string& remark : curve.remarks) out += printable(remark) + '\n';
  for (const Curve_note& note : curve.notes) out += printable(note_text(note)) + '\n';
  out += '\n';
  const auto row = [&](std::string_view t, std::string_view low, std::string_view nominal,
                       std::string_view high) {
    const auto padded = [](std::string_view text, std::size_t size) {
      const std::size_t has = code_points(text);
      return std::string(has < size ? size - has : 0, ' ').append(text);
    };
    out += padded(t, 11);
    for (const std::string_view resistance : {low, nominal, high}) out += "  " + padded(resistance, 12);
    out += '\n';
  };
  row("temperature", "at least", "nominal", "at most");
  const bool constant = !depends_on_temperature(curve.model);
  for (const Curve_point& at : curve.points) {
    const std::string t = constant ? "any" : temperature_text(at.kelvin, curve.unit);
    if (!at.ohm) {
      row(t, "-", "-", "-");
      continue;
    }
    const Interval shown = outward(*at.ohm);
    row(t, shown.low > 0 ? limit_text(shown.low) : "-", at.nominal ? ohm(*at.nominal) : "-",
        std::isinf(shown.high) ? "-" : limit_text(shown.high));
    if (constant) break;
  }
  return out;
}

std::string curve_csv(const Curve& curve) {
  std::string out =
      fmt::format("temperature_{},least_ohm,nominal_ohm,greatest_ohm,caution\r\n", unit_of(curve.unit).word);
  for (const Curve_point& at : curve.points) {
    std::string row = number_text(in_unit(at.kelvin, curve.unit));
    // Of a model that goes below zero, which no part does, nothing is left there to be read.
    const auto cell = [&](std::optional<double> value) {
      row += ',';
      if (value && std::isfinite(*value) && *value >= 0) row += number_text(*value);
    };
    const bool has_band = at.ohm && at.ohm->high >= 0;
    cell(has_band ? std::optional(std::max(rounded(at.ohm->low, Towards::less, 7), 0.0)) : std::nullopt);
    cell(at.nominal ? std::optional(rounded(*at.nominal, Towards::nearest, 7)) : std::nullopt);
    cell(has_band ? std::optional(rounded(at.ohm->high, Towards::more, 7)) : std::nullopt);
    row += ',';
    append_cell(row, shortest_caution(), ',');
    out += row + "\r\n";
  }
  return out;
}

}
