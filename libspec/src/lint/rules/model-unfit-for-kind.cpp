#include <algorithm>

#include "lint/measured.h"
#include "lint/read.h"
#include "lint/rule.h"
#include "lint/stated_model.h"
#include "lint/usual.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

using enum Component_kind;

struct Unfit {
  bool surely = false; // else a wrong kind is likelier than an odd part
  std::string_view why;
};

template <class... Kinds>
bool any_of(Component_kind kind, Kinds... kinds) {
  return ((kind == kinds) || ...);
}

// V²/P is the resistance of what neither induces nor rectifies nor changes much as it heats.
std::string_view no_rating(const Resolved_component& component) {
  const auto drive = component.get(&Component_type::drive);
  const auto element = component.get(&Component_type::element);
  switch (component.kind()) {
  case winding:
  case transformer: return "its current is limited by induction, not by V²/P";
  case coil: return drive && **drive != Drive::dc ? "V²/P is the resistance of a plain dc coil only" : "";
  case heater:
  case igniter:
    return element && **element != Heater_element::wire && **element != Heater_element::unknown
               ? "V²/P holds cold for a wire element only"
               : "";
  case resistor:
  case electronic: return "";
  default: return "nothing follows from a rated power here";
  }
}

// A PTC that falls is for ptc-falls.
std::optional<Unfit> unfit(const Resolved_component& component, const Resistance_model& model) {
  const Component_kind kind = component.kind();
  switch (*model.kind) {
  case Model_kind::beta:
  case Model_kind::steinhart_hart:
    if (any_of(kind, ntc, ptc)) return std::nullopt;
    return Unfit{kind == rtd, "it is that of a thermistor, whose resistance falls with temperature"};
  case Model_kind::iec_60751:
    if (kind == rtd) return std::nullopt;
    return Unfit{kind == ntc, "it is that of platinum, whose resistance rises with temperature"};
  case Model_kind::copper:
    if (!any_of(kind, ntc, ptc, photocell, capacitor, electronic, potentiometer, switch_, coding))
      return std::nullopt;
    return Unfit{kind == ntc, "it is that of a metal, whose resistance rises evenly with temperature"};
  case Model_kind::fixed:
    if (!any_of(kind, ntc, ptc, rtd) || model.at) return std::nullopt;
    return Unfit{false, "it says the same at every temperature; give the one at which it holds in `at`"};
  case Model_kind::power: {
    const std::string_view why = no_rating(component);
    return why.empty() ? std::nullopt : std::optional(Unfit{false, why});
  }
  case Model_kind::open:
  case Model_kind::closed: {
    // A coil may have a rectifier, and makers call the resistance of a heater "continuity".
    const bool conducts =
        *model.kind == Model_kind::open
            ? kind == heater || is_plain_coil(component)
            : kind == heater && model.below && model.below->si <= usual_component(component)->range.low;
    if (!conducts && !any_of(kind, ntc, ptc, rtd, resistor, potentiometer)) return std::nullopt;
    return Unfit{false, "a part of that kind has a resistance of its own; state it"};
  }
  default: return std::nullopt;
  }
}

constexpr Interval any_temperature = {0, infinity};

// Of a table its coldest and its hottest row of a range: single rows are for other rules. Of a polynomial
// every 25 K, where the part is made for it: a fit may turn outside of what it was fitted to.
std::vector<Point> course_of(const Subject& subject, const Resistance_model& model,
                             const Resolved_component& component, Interval kelvin = any_temperature) {
  std::vector<Point> points;
  if (*model.kind == Model_kind::table) {
    const Row *coldest = nullptr, *hottest = nullptr;
    for (const Row& row : rows_of(subject, model).rows) {
      if (!kelvin.contains(row.row->at->si)) continue;
      if (coldest == nullptr) coldest = &row;
      hottest = &row;
    }
    if (coldest != nullptr && hottest->gate.x.high < coldest->gate.x.low)
      for (const Row* row : {coldest, hottest})
        points.push_back({row->row->at->si, *row_interval(*row->row), row->ohm});
  } else if (*model.kind == Model_kind::polynomial && model.a1 && fully_read(subject.document, model)) {
    const auto range = component.get(&Component_type::temperature_range);
    for (const double celsius : {0, 25, 50, 75}) {
      const auto point = point_at(model, zero_celsius + celsius);
      if (point && (!range || kelvin_interval(**range).contains(point->kelvin))) points.push_back(*point);
    }
  }
  return points;
}

// Where the component is a metal or a bare thermistor, and its model goes the other way all along. The table
// of a thermistor is for ntc-rises.
void check_course(const Subject& subject, Sink& sink, const Resistance_model& model,
                  const Resolved_component& component) {
  const bool metal = component.is(rtd);
  if (!metal && (!is_bare_ntc(component) || *model.kind == Model_kind::table)) return;
  const std::vector<Point> points = course_of(subject, model, component);
  const auto as_it_may = [&](const Point& colder, const Point& hotter) {
    return metal ? hotter.ohm.high >= colder.ohm.low : hotter.ohm.low <= colder.ohm.high;
  };
  if (points.size() < 2 || std::adjacent_find(points.begin(), points.end(), as_it_may) != points.end())
    return;
  const Point &cold = points.front(), &hot = points.back();
  const auto [cold_ohm, hot_ohm] = apart(cold.shown, hot.shown);
  sink.report(model.kind.node,
              fmt::format("{} is of kind `{}`, and its model {} from {} at {} to {} at {}: the resistance of "
                          "{} with temperature; mend the kind or the numbers",
                          component.id, word_of(component.kind()), metal ? "falls" : "rises", cold_ohm,
                          celsius(cold.kelvin), hot_ohm, celsius(hot.kelvin),
                          metal ? "a metal rises" : "an NTC falls"));
}

// R is nearly as k + t there, t in °C: those of platinum (IEC 60751 and its older alloys), nickel (DIN 43760,
// 6720 ppm/K and 5000 ppm/K), copper and aluminium from 0 °C to 100 °C, from memory.
constexpr Interval zero_to_boiling = {zero_celsius, zero_celsius + 100};
constexpr Interval k_of_any = {105, 280};
Interval k_there(Metal metal) {
  switch (metal) {
  case Metal::copper: return {215, 255};
  case Metal::aluminium: return {205, 245};
  case Metal::platinum: return {240, 280};
  case Metal::nickel: return {105, 235};
  }
  return k_of_any;
}

// The curve or the table of a metal that rises as no metal does, or not as its own.
void check_rise(const Subject& subject, Sink& sink, const Resistance_model& model,
                const Resolved_component& component) {
  const auto metal = component.get(&Component_type::metal);
  if (!component.is(rtd)) return;
  const auto points = course_of(subject, model, component, zero_to_boiling);
  if (points.size() < 2) return;
  const Point &cold = points.front(), &hot = points.back();
  const Interval k = metal ? k_there(**metal) : k_of_any;
  const double from = cold.kelvin - zero_celsius, to = hot.kelvin - zero_celsius;
  const Interval healthy = {(k.high + to) / (k.high + from), (k.low + to) / (k.low + from)};
  const Interval rise = {hot.ohm.low / cold.ohm.high, hot.ohm.high / cold.ohm.low};
  if (!(cold.ohm.low > 0) || rise.high < 1 || rise.overlaps(healthy)) return;
  const auto [cold_ohm, hot_ohm] = apart(cold.shown, hot.shown);
  const double nearest = rise.low > healthy.high ? healthy.high : healthy.low;
  const int digits = digits_apart(rise.middle(), nearest);
  sink.report_as(
      Severity::warning, model.kind.node,
      fmt::format("{0} is of kind `{1}`, and its model gives {2} at {3} and {4} at {5}, {6:.{10}g} times as "
                  "much: {7} has {8:.{10}g} to {9:.{10}g} times as much there; look for a wrong digit, "
                  "exponent or kind",
                  component.id, word_of(component.kind()), cold_ohm, celsius(cold.kelvin), hot_ohm,
                  celsius(hot.kelvin), rise.middle(), metal ? word_of(**metal) : "a metal", healthy.low,
                  healthy.high, digits));
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (!component.known_kind) return;
    check_course(subject, sink, model, component);
    check_rise(subject, sink, model, component);
    if (const auto found = unfit(component, model))
      sink.report_as(found->surely ? Severity::error : Severity::warning, model.kind.node,
                     fmt::format("{} is of kind `{}`, and its model is `{}`: {}", component.id,
                                 word_of(component.kind()), word_of(*model.kind), found->why));
  });
}

}

extern const Rule model_unfit_for_kind = {
    .family = Family::band,
    .severity = Severity::error,
    .summary = "A resistance model does not fit the kind of its component.",
    .check = check,
};

}
