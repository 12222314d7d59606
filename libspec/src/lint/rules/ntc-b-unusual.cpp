#include <algorithm>

#include "lint/b_values.h"
#include "lint/read.h"
#include "lint/rows.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// What sensors have at least at 25 °C, in ohm. Common practice, no source.
constexpr double least_usual = 10;

bool is_unusual(Interval b) { return b.overlaps(possible_b) && !b.overlaps(usual_b); }

std::string beside_usual(Interval b, std::string_view where = "") {
  const bool low = b.high < usual_b.low;
  return fmt::format("{} {}{}, and makers offer NTCs of {} to {}", kelvin(low ? b.high : b.low),
                     low ? "at most" : "at least", where, kelvin(usual_b.low), kelvin(usual_b.high));
}

void check_stated(Sink& sink, const Resistance_model& model) {
  const Interval b = toleranced_interval(*model.b_value, model.b_tolerance, Taken::generously);
  if (is_unusual(b))
    sink.report(
        model.b_value.node,
        fmt::format("B is {}; look for a wrong digit, or say `linearised` where a resistor sits inside "
                    "the sensor",
                    beside_usual(b)));
}

// A tolerance of B, as a part of it, well beyond what makers promise: 0.2 % to 5 %. Common practice, no
// source.
constexpr Interval doubted = {0.0015, 0.1};

// "1 K" for 1 %, or a lost point. A share of less may be that of one batch, measured well.
void check_tolerance(Sink& sink, const Resistance_model& model) {
  const Tolerance& tolerance = *model.b_tolerance;
  const double part =
      std::max(tolerance.minus, tolerance.plus) / (tolerance.relative() ? 1 : model.b_value->si);
  const bool too_little = !tolerance.relative() && part > 0 && part < doubted.low;
  if (!too_little && !(part > doubted.high && part < 1)) return; // from 100 % on it is tolerance-beyond-100
  sink.report(
      model.b_tolerance.node,
      fmt::format(
          "this is {} of {}, and makers promise B within 0.2 % to 5 %: look at the unit and the point",
          describe(part, Dimension::ratio, 2), kelvin(model.b_value->si)));
}

// From the coldest row to the hottest: single rows are row-misprint's.
void check_rows(const Subject& subject, Sink& sink, const Resistance_model& model) {
  const auto& [rows, impossible] = rows_of(subject, model);
  if (rows.size() < 2 || !impossible.empty()) return;
  const Row &cold = rows.front(), &hot = rows.back();
  const Interval b = b_of(cold.gate, hot.gate);
  if (!is_unusual(b)) return;
  const auto said = [](const Row& row) {
    return fmt::format("{} ({})", celsius(row.row->at->si), ohm(*row_interval(*row.row)));
  };
  Finding& finding = sink.report(
      model.node, fmt::format("between {} and {} B is {}; look at the two rows, or say `linearised` where a "
                              "resistor sits inside the sensor",
                              said(cold), said(hot), beside_usual(b)));
  finding.value = fmt::format("{} and {}", said(cold), said(hot));
  sink.relate(cold.row->node, "the coldest row");
  sink.relate(hot.row->node, "the hottest row");
}

// Of a Steinhart-Hart curve; empty where its numbers leave open that it has none.
std::optional<Interval> b_at(const Resistance_model& model, double ohm) {
  const double l = std::log(ohm);
  const Interval slope = inverse_b(model, {l * l, l * l});
  return slope.low > 0 ? std::optional(Interval{1, 1} / slope) : std::nullopt;
}

// A sign of c that was lost leaves B usual at one temperature, and turns the way in which it grows.
void check_growth(Sink& sink, const Resistance_model& model, const Resolved_component& component) {
  constexpr double cold = zero_celsius, hot = zero_celsius + 75;
  const auto range = component.get(&Component_type::temperature_range);
  if (range && !kelvin_interval(**range).contains(Interval{cold, hot})) return;
  const auto ohm_cold = nominal_resistance(model, cold), ohm_hot = nominal_resistance(model, hot);
  // Above 8.9 MΩ ntc-b-impossible may have told.
  if (!ohm_cold || !ohm_hot || std::log(std::max(*ohm_cold, *ohm_hot)) > 16) return;
  const auto b_cold = b_at(model, *ohm_cold), b_hot = b_at(model, *ohm_hot);
  if (!b_cold || !b_hot || ((*b_hot - *b_cold) / Interval{hot - cold, hot - cold}).overlaps(b_drift)) return;
  sink.report(
      model.c.node,
      fmt::format(
          "with this b and c B goes from {} at {} to {} at {}, and in published tables it grows by 1 K to "
          "8 K per kelvin; look at the sign, the digits and the exponent of c",
          kelvin(b_cold->middle()), celsius(cold), kelvin(b_hot->middle()), celsius(hot)));
  sink.relate(model.b.node, "b");
}

// At 25 °C.
void check_coefficients(Sink& sink, const Resistance_model& model, const Resolved_component& component) {
  if (!model.a || !model.b || !model.c) return;
  const auto at_25 = nominal_resistance(model, zero_celsius + 25);
  if (!at_25) return;
  const auto known = b_at(model, *at_25);
  if (!known) return;
  const Interval b = *known;
  if (b.overlaps(usual_b) && *at_25 >= possible_at_25.low && *at_25 < least_usual)
    sink.report(model.a.node,
                fmt::format("with these coefficients the sensor has {} at 25 °C, and few have less than {}: "
                            "take those for R in ohm, not for R/R25",
                            ohm(*at_25), ohm(least_usual)));
  if (b.overlaps(usual_b)) check_growth(sink, model, component);
  if (!is_unusual(b)) return;
  const std::string there = fmt::format(" at 25 °C ({})", ohm(*at_25));
  sink.report(model.b.node,
              fmt::format("with this b and c B is {}; look at the digits of both", beside_usual(b, there)));
  sink.relate(model.c.node, "c");
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (!is_bare_ntc(component) || !fully_read(subject.document, model)) return;
    if (model.b_value) check_stated(sink, model);
    if (model.b_value && model.b_value->si > 0 && model.b_tolerance) check_tolerance(sink, model);
    if (*model.kind == Model_kind::table && !model.b_value) check_rows(subject, sink, model);
    if (*model.kind == Model_kind::steinhart_hart) check_coefficients(sink, model, component);
  });
}

}

extern const Rule ntc_b_unusual = {
    .family = Family::ntc,
    .severity = Severity::warning,
    .summary = "A bare NTC would have a B-value that no maker offers.",
    .check = check,
};

}
