#include "ohmlore/curve.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>

#include <fmt/args.h>

#include "exchange/csv_text.h"
#include "exchange/numbers.h"
#include "job/curve_chart.h"
#include "job/curve_notes.h"
#include "lint/measured.h"
#include "lint/rule.h"
#include "ohmlore/cautions.h"
#include "text/counted.h"
#include "units/outward.h"

namespace ohmlore {
namespace {

using rules::kelvin, rules::ohm, rules::percent;

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr Interval point(double x) { return {x, x}; }

// Where neither model nor component says anything: usual sensors of heating (practice).
constexpr Interval usual_kelvin = {zero_celsius - 20, zero_celsius + 110};
constexpr std::size_t most_points = 10'000;

struct Unit {
  std::string_view symbol, word;
  double per_kelvin, at_zero_kelvin;
};
Unit unit_of(Temperature_unit unit) {
  switch (unit) {
  case Temperature_unit::fahrenheit: return {"°F", "fahrenheit", 1.8, -459.67};
  case Temperature_unit::kelvin: return {"K", "kelvin", 1, 0};
  case Temperature_unit::celsius: break;
  }
  return {"°C", "celsius", 1, -zero_celsius};
}
// To a millionth: what is beyond comes of the conversion alone.
double in_unit(double kelvin, Temperature_unit unit) {
  const Unit u = unit_of(unit);
  const double value = std::round((kelvin * u.per_kelvin + u.at_zero_kelvin) * 1e6) / 1e6;
  return value == 0 ? 0 : value;
}
// The double that a document's "25 °C" gives, so that a row at 25 °C is met.
double kelvin_of(double value, Temperature_unit unit) {
  const std::string text = fmt::format("{:.6f} {}", value, unit_of(unit).symbol);
  const auto read = parse_quantity(text, Dimension::temperature);
  return read.value ? read.value->si : 0;
}
std::string decimal_text(double value, int digits) {
  std::string text = fmt::format("{:.{}f}", value, digits);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.ends_with('.')) text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

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

bool has_threshold(const Resistance_model& model) {
  return *model.kind == Model_kind::open || *model.kind == Model_kind::closed;
}
bool depends_on_temperature(const Resistance_model& model) {
  return !has_threshold(model) && *model.kind != Model_kind::fixed && *model.kind != Model_kind::power;
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

// B of published tables grows so with temperature, in kelvin per kelvin (see b_drift).
constexpr Interval published_b_drift = {1.3, 5.6};

// How far real thermistors lie from a curve of one B, at the worst end. B between two temperatures is B at
// their mean, as it drifts nearly evenly.
std::optional<Curve_note> b_note(const Curve& curve) {
  const double reference = kelvin_interval(*curve.model.at).middle();
  const double stated_sum = curve.model.b_between
                                ? curve.model.b_between->low.si + curve.model.b_between->high.si
                                : 2 * zero_celsius + 75;
  double worst = 0, at = 0;
  for (const double t : {curve.kelvin.low, curve.kelvin.high}) {
    const double off =
        std::expm1(published_b_drift.high / 2 * (t + reference - stated_sum) * (1 / t - 1 / reference));
    if (std::fabs(off) > std::fabs(worst)) worst = off, at = t;
  }
  if (std::fabs(worst) < 0.005) return std::nullopt;
  return Curve_note{worst < 0 ? "one_b_below" : "one_b_above",
                    {describe(std::fabs(worst), Dimension::ratio, 2), temperature_text(at, curve.unit)}};
}

std::vector<Curve_note> notes_of(const Curve& curve, const Resolved_component& component,
                                 bool range_is_assumed) {
  const Resistance_model& model = curve.model;
  std::vector<Curve_note> notes;
  if (has_threshold(model)) {
    notes.push_back({"threshold", {}});
  } else {
    std::string limit;
    if (const auto stated = component.get(&Component_type::service_limit))
      limit = fmt::format(" (±{})", describe((*stated)->plus, (*stated)->dimension));
    notes.push_back({"as_made", {limit}});
    const bool row_without = std::any_of(model.rows.begin(), model.rows.end(), [](const Table_row& row) {
      return row.nominal && !row.tolerance && !(row.min && row.max);
    });
    const bool states_none = *model.kind == Model_kind::iec_60751 ? !model.tolerance_class
                             : *model.kind == Model_kind::table   ? row_without
                                                                  : !model.tolerance;
    if (states_none) notes.push_back({"no_tolerance", {}});
  }
  if (*model.kind == Model_kind::beta && model.at && model.b_value)
    if (auto note = b_note(curve)) notes.push_back(std::move(*note));
  const bool at_row = std::any_of(model.rows.begin(), model.rows.end(), [&](const Table_row& row) {
    return row.at && curve.kelvin.low == row.at->si && curve.kelvin.high == row.at->si;
  });
  if (*model.kind == Model_kind::table && model.rows.size() > 1 && !at_row)
    notes.push_back({curve.between == Between_rows::thermistor ? "bends_between" : "unknown_between", {}});
  if (*model.kind == Model_kind::copper && !rules::metal_k(model)) notes.push_back({"k_of_copper", {}});
  if (range_is_assumed) notes.push_back({"usual_range", {}});
  if (const auto stated = component.get(&Component_type::temperature_range)) {
    const Interval range = kelvin_interval(**stated);
    if (!range.contains(curve.kelvin) && depends_on_temperature(model))
      notes.push_back({"stated_range",
                       {temperature_text(range.low, curve.unit), temperature_text(range.high, curve.unit)}});
  }
  return notes;
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

Curve_point point_at(const Curve& curve, double t) {
  return {t, curve_band(curve, point(t)), nominal_resistance(curve.model, t)};
}

}

std::string temperature_text(double kelvin, Temperature_unit unit, int digits) {
  return fmt::format("{} {}", decimal_text(in_unit(kelvin, unit), digits), unit_of(unit).symbol);
}

std::string filled(std::string_view sentence, const std::vector<std::string>& filling) {
  fmt::dynamic_format_arg_store<fmt::format_context> places;
  for (const std::string& one : filling) places.push_back(one);
  return fmt::vformat(sentence, places);
}

std::string note_text(const Curve_note& note) {
  for (const Curve_sentence& one : curve_sentences)
    if (one.id == note.id) return filled(one.text, note.filled);
  return {};
}

std::string beyond_text(Interval stated, Temperature_unit unit) {
  return fmt::format("computed beyond {} to {}: take it with doubt", temperature_text(stated.low, unit),
                     temperature_text(stated.high, unit));
}

std::vector<Curve_note> notes_at(const Resolved_component& component, const Resistance_model& model,
                                 Interval kelvin) {
  Curve curve;
  curve.model = model;
  curve.between = between_rows(component);
  curve.kelvin = kelvin;
  return notes_of(curve, component, false);
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
  if (*model.kind == Model_kind::open && model.above) return Interval{model.above->si, infinity};
  if (*model.kind == Model_kind::closed && model.below) return Interval{0, model.below->si};
  return model_interval(model, kelvin, Taken::literally, curve.between);
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

  const auto stated = stated_range(component, curve.model);
  const Interval speaks = stated.value_or(usual_kelvin);
  curve.kelvin = {request.from.value_or(speaks.low), request.to.value_or(speaks.high)};
  const auto shown = [&](double t) { return temperature_text(t, curve.unit); };
  if (!(curve.kelvin.low <= curve.kelvin.high)) {
    if (request.from && request.to)
      return fail(fmt::format("{} is above {}; give the lower temperature first", shown(curve.kelvin.low),
                              shown(curve.kelvin.high)));
    return fail(request.from
                    ? fmt::format("{} is above {}, where its range ends; say how far to go with --to",
                                  shown(curve.kelvin.low), shown(curve.kelvin.high))
                    : fmt::format("{} is below {}, where its range begins; say where to begin with --from",
                                  shown(curve.kelvin.high), shown(curve.kelvin.low)));
  }
  if (!(curve.kelvin.low > 0))
    return fail(fmt::format("{} is not above absolute zero", shown(curve.kelvin.low)));
  const double per_kelvin = unit_of(curve.unit).per_kelvin;
  const double step = request.step ? *request.step * per_kelvin : round_step(curve.kelvin, curve.unit);
  const double first = in_unit(curve.kelvin.low, curve.unit), last = in_unit(curve.kelvin.high, curve.unit);
  if (!(step > 0)) return fail("a step must be above 0");
  if ((last - first) / step >= static_cast<double>(most_points))
    return fail(fmt::format("steps of {} from {} to {} would be more than {} rows; make them longer, or the "
                            "range shorter",
                            kelvin(step / per_kelvin), shown(curve.kelvin.low), shown(curve.kelvin.high),
                            most_points));
  const double start = request.from || request.step ? first : std::ceil(first / step - 1e-9) * step;
  if (start > first) curve.points.push_back(point_at(curve, curve.kelvin.low));
  double value = start;
  for (int i = 1; value <= last + 1e-9 * step; ++i) {
    curve.points.push_back(point_at(curve, kelvin_of(value, curve.unit)));
    value = start + i * step;
  }
  if (!request.to && in_unit(curve.points.back().kelvin, curve.unit) < last)
    curve.points.push_back(point_at(curve, curve.kelvin.high));
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
    const auto cell = [&](std::optional<double> value) {
      row += ',';
      if (value && std::isfinite(*value)) row += number_text(*value);
    };
    cell(at.ohm ? std::optional(rounded(at.ohm->low, Towards::less, 7)) : std::nullopt);
    cell(at.nominal ? std::optional(rounded(*at.nominal, Towards::nearest, 7)) : std::nullopt);
    cell(at.ohm ? std::optional(rounded(at.ohm->high, Towards::more, 7)) : std::nullopt);
    row += ',';
    append_cell(row, shortest_caution(), ',');
    out += row + "\r\n";
  }
  return out;
}

namespace {

// The temperatures at which a picture is computed: even steps, and on both sides of each row, where the band
// of a table has its edges.
std::vector<double> drawn_at(const Curve& curve) {
  std::vector<double> at;
  constexpr int steps = 240;
  const auto [low, high] = curve.kelvin;
  for (int i = 0; i <= steps; ++i) at.push_back(i == steps ? high : low + i * (high - low) / steps);
  for (const Table_row& row : curve.model.rows)
    if (row.at && curve.kelvin.contains(row.at->si))
      for (const double t : {row.at->si - 1e-6, row.at->si, row.at->si + 1e-6})
        if (curve.kelvin.contains(t)) at.push_back(t);
  std::sort(at.begin(), at.end());
  return at;
}

Interval range_drawn(const std::vector<Curve_point>& points, const std::vector<Curve_mark>& measured) {
  Interval reach = {infinity, 0};
  const auto hold = [&](double value) {
    if (value > 0 && std::isfinite(value)) reach = {std::min(reach.low, value), std::max(reach.high, value)};
  };
  for (const Curve_point& at : points)
    if (at.ohm) hold(at.ohm->low), hold(at.ohm->high);
  for (const Curve_mark& mark : measured) hold(mark.ohm.low), hold(mark.ohm.high);
  return reach.low <= reach.high ? reach : Interval{1, 1}; // a threshold of 0 Ω: nothing but an axis
}

Chart_axis resistance_axis(const Curve& curve, Interval reach, const Curve_chart_words& words) {
  Chart_axis axis;
  axis.logarithmic = has_threshold(curve.model) || reach.high / reach.low > 6;
  axis.title = axis.logarithmic ? words.resistance_logarithmic : words.resistance;
  axis.label = [](double value) { return describe(value, Dimension::resistance, 5); };
  if (has_threshold(curve.model)) {
    axis.range = {reach.low / 100, reach.high * 100};
  } else if (axis.logarithmic) {
    const double more = std::pow(reach.high / reach.low, 0.06);
    axis.range = {reach.low / more, reach.high * more};
  } else {
    const double more = std::max(0.08 * reach.width(), 1e-3 * reach.high);
    axis.range = {std::max(reach.low - more, 0.0), reach.high + more};
  }
  return axis;
}

Chart_mark chart_mark(const Curve& curve, const Curve_mark& mark) {
  Chart_mark drawn;
  drawn.x = {in_unit(mark.kelvin.low, curve.unit), in_unit(mark.kelvin.high, curve.unit)};
  drawn.y = mark.ohm;
  drawn.has_middle = mark.nominal.has_value();
  if (mark.nominal) drawn.middle = {drawn.x.middle(), *mark.nominal};
  return drawn;
}

// The same around the nominal: a band of 1 % cannot be seen on an axis of decades.
std::optional<Chart_panel> deviation_panel(const Curve& curve, const std::vector<Curve_point>& points,
                                           const Chart_panel& main, const std::vector<Curve_mark>& measured) {
  Chart_panel panel;
  panel.height = 150;
  panel.y.title = "Deviation from the nominal";
  panel.y.label = [](double share) {
    return fmt::format("{}{}", share > 0 ? "+" : "", describe(share, Dimension::ratio, 3));
  };
  Interval reach = {0, 0};
  panel.bands.emplace_back();
  panel.lines.push_back(
      {{in_unit(curve.kelvin.low, curve.unit), 0}, {in_unit(curve.kelvin.high, curve.unit), 0}});
  for (const Curve_point& at : points) {
    if (!at.ohm || !at.nominal || !std::isfinite(at.ohm->high)) continue;
    const Interval off = {at.ohm->low / *at.nominal - 1, at.ohm->high / *at.nominal - 1};
    reach = hull(reach, off);
    panel.bands[0].push_back({in_unit(at.kelvin, curve.unit), off});
  }
  if (panel.bands[0].size() < 2 || !(reach.width() > 0)) return std::nullopt;
  const double share_of_axis =
      main.y.logarithmic ? std::log1p(reach.width()) / std::log(main.y.range.high / main.y.range.low)
                         : reach.width() * main.y.range.high / main.y.range.width();
  if (share_of_axis * main.height > 60 && measured.empty()) return std::nullopt;
  const auto add = [&](const Curve_mark& mark, std::vector<Chart_mark>& to) {
    if (!curve.kelvin.contains(mark.kelvin)) return;
    const auto nominal = nominal_resistance(curve.model, mark.kelvin.middle());
    if (!nominal) return;
    Curve_mark off = mark;
    off.ohm = {mark.ohm.low / *nominal - 1, mark.ohm.high / *nominal - 1};
    if (mark.nominal) off.nominal = *mark.nominal / *nominal - 1;
    reach = hull(reach, off.ohm);
    to.push_back(chart_mark(curve, off));
  };
  for (const Curve_mark& mark : curve.stated) add(mark, panel.stated);
  for (const Curve_mark& mark : measured) add(mark, panel.measured);
  panel.y.range = {reach.low - 0.1 * reach.width(), reach.high + 0.1 * reach.width()};
  return panel;
}

std::string described(const Curve& curve) {
  std::string text;
  const auto add = [&](const Curve_point& at) {
    if (at.ohm)
      text += fmt::format("{}{} at {}", text.empty() ? "" : "; ", band_text(*at.ohm),
                          temperature_text(at.kelvin, curve.unit));
  };
  add(curve.points.front());
  if (curve.points.size() > 2) add(curve.points[curve.points.size() / 2]);
  if (curve.points.size() > 1) add(curve.points.back());
  return fmt::format("Resistance over temperature: {}.", text);
}

}

Chart curve_chart(const Curve& curve, const std::vector<Curve_mark>& measured,
                  const Curve_chart_words& words) {
  std::vector<Curve_point> points;
  for (const double t : drawn_at(curve)) points.push_back(point_at(curve, t));

  Chart chart;
  chart.title = curve.title;
  chart.description = described(curve);
  const Unit unit = unit_of(curve.unit);
  chart.x.title = fmt::format("{} {}", words.temperature, unit.symbol);
  chart.x.range = {in_unit(curve.kelvin.low, curve.unit), in_unit(curve.kelvin.high, curve.unit)};
  if (!(chart.x.range.width() > 0)) chart.x.range = {chart.x.range.low - 1, chart.x.range.high + 1};
  chart.x.label = [](double value) { return decimal_text(value, 2); };

  Chart_panel main;
  main.height = has_threshold(curve.model) ? 220 : 320;
  main.y = resistance_axis(curve, range_drawn(points, measured), words);
  bool in_band = false, in_line = false;
  for (const Curve_point& at : points) {
    const double x = in_unit(at.kelvin, curve.unit);
    if (at.ohm && !in_band) main.bands.emplace_back();
    if (at.ohm) main.bands.back().push_back({x, *at.ohm});
    in_band = at.ohm.has_value();
    if (at.nominal && !in_line) main.lines.emplace_back();
    if (at.nominal) main.lines.back().push_back({x, *at.nominal});
    in_line = at.nominal.has_value();
  }
  for (const Curve_mark& mark : curve.stated)
    if (curve.kelvin.contains(mark.kelvin)) main.stated.push_back(chart_mark(curve, mark));
  for (const Curve_mark& mark : measured) main.measured.push_back(chart_mark(curve, mark));
  if (main.bands.size() > 1 || (!main.bands.empty() && main.bands[0].size() > 1))
    chart.legend.band = has_threshold(curve.model) ? words.healthy : words.band;
  if (std::any_of(main.lines.begin(), main.lines.end(), [](const auto& line) { return line.size() > 1; }))
    chart.legend.line = words.nominal;
  if (!main.stated.empty()) chart.legend.stated = words.stated;
  if (!main.measured.empty()) chart.legend.measured = words.measured;
  const auto deviation = deviation_panel(curve, points, main, measured);
  chart.panels.push_back(std::move(main));
  if (deviation) chart.panels.push_back(*deviation);
  return chart;
}

std::string curve_svg(const Curve& curve, const std::vector<Curve_mark>& measured) {
  Chart chart = curve_chart(curve, measured);
  chart.notes = curve.remarks;
  for (const Curve_note& note : curve.notes) chart.notes.push_back(note_text(note));
  for (const Caution& caution : cautions()) chart.cautions.emplace_back(caution.text);
  return chart_svg(chart);
}

}
