// The table of readings over temperature, and the curves.
#include <algorithm>
#include <map>

#include "job/curve_chart.h"
#include "job/curve_notes.h"
#include "judge/limits.h"
#include "sheet/page.h"

namespace ohmlore::sheet {
namespace {

// Tests that expect the same at every temperature share a row.
struct Row {
  std::vector<const Numbered_test*> tests;
  std::vector<Sheet_reading> readings;
  std::string limits;
};

bool alike(const std::vector<Sheet_reading>& a, const std::vector<Sheet_reading>& b) {
  return std::equal(
      a.begin(), a.end(), b.begin(), b.end(), [](const Sheet_reading& x, const Sheet_reading& y) {
        return x.nominal == y.nominal && x.healthy.has_value() == y.healthy.has_value() &&
               (!x.healthy || (x.healthy->low == y.healthy->low && x.healthy->high == y.healthy->high));
      });
}

std::string limits_text(const Page& page, const Test& test) {
  const Catalogue& words = page.words;
  std::string problem;
  const auto expected = expected_of(page.resolved, test, false, problem);
  if (!expected || expected->stated) return {};
  std::string made;
  if (expected->model && expected->model->tolerance)
    made = words.say(Phrase::made_within, described(*expected->model->tolerance));
  if (!expected->service) return made;
  const std::string limit =
      words.say(expected->basis == Limit_basis::practice ? Phrase::usual_limit : Phrase::limit_used,
                described(*expected->service));
  return made.empty() ? limit : fmt::format("{}; {}", limit, made);
}

std::vector<Row> rows_of(const Page& page) {
  std::vector<Row> rows;
  for (const Numbered_test& test : page.tests) {
    std::vector<Sheet_reading> readings = sheet_readings(page.resolved, test.test->value);
    if (readings.empty()) continue;
    const std::string limits = limits_text(page, test.test->value);
    const auto same = std::find_if(rows.begin(), rows.end(), [&](const Row& row) {
      return row.limits == limits && alike(row.readings, readings);
    });
    if (same != rows.end())
      same->tests.push_back(&test);
    else
      rows.push_back({{&test}, std::move(readings), limits});
  }
  return rows;
}

void add_row(Element body, const Page& page, const Row& row) {
  const Catalogue& words = page.words;
  Element line = add(body, "tr");
  Element head = add(line, "th");
  set(head, "scope", "row");
  std::vector<Text> names;
  for (const Numbered_test* test : row.tests) {
    add_test_mark(head, *test);
    say(head, " ");
    const Text name =
        test->test->value.component ? page.name_of(*test->test->value.component) : test->test->id;
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  quote(add(head, "span"), joined(names, [](Text name) { return name; }));
  if (!row.limits.empty()) add(head, "span", "limit", row.limits);
  for (const Sheet_reading& reading : row.readings) {
    Element cell = add(line, "td");
    set(cell, "data-at", describe(reading.kelvin, Dimension::temperature));
    if (!reading.healthy) {
      say(cell, words.say(Phrase::none_here));
      continue;
    }
    if (reading.nominal) add(cell, "b", {}, ohm_text(*reading.nominal));
    add(cell, "span", {}, range_text(*reading.healthy, words));
  }
}

bool is_worth_a_curve(const Resolved_component& component) {
  return component.is(Component_kind::ntc) || component.is(Component_kind::ptc) ||
         component.is(Component_kind::rtd);
}

// Components whose model is the same record share a curve.
struct Drawn {
  std::vector<Text> names;
  const Resolved_component* component = nullptr;
};
std::vector<Drawn> drawn_of(const Page& page) {
  std::vector<Drawn> all;
  for (const Resolved_component& component : page.resolved.components) {
    if (!is_worth_a_curve(component)) continue;
    const auto model = component.get(&Component_type::model);
    if (!model || !model->kind) continue;
    const Text name = page.name_of(component.id);
    const auto same = std::find_if(all.begin(), all.end(), [&](const Drawn& drawn) {
      return drawn.component->get(&Component_type::model).value == model.value;
    });
    if (same != all.end())
      same->names.push_back(name);
    else
      all.push_back({{name}, &component});
  }
  return all;
}

Curve_chart_words chart_words(const Catalogue& words) {
  Curve_chart_words chart;
  chart.resistance = words.say(Phrase::resistance_axis);
  chart.resistance_logarithmic = words.say(Phrase::resistance_axis_log);
  chart.temperature = words.say(Phrase::temperature_axis);
  chart.band = words.say(Phrase::legend_band);
  chart.healthy = words.say(Phrase::legend_healthy);
  chart.nominal = words.say(Phrase::legend_nominal);
  chart.stated = words.say(Phrase::legend_stated);
  return chart;
}

}

void add_readings(Element parent, const Page& page) {
  const Catalogue& words = page.words;
  Element section = add_section(parent, "readings", words.say(Phrase::readings));
  const std::vector<Row> rows = rows_of(page);
  if (rows.empty()) {
    add(section, "p", {}, words.say(Phrase::nothing_varies));
    return;
  }
  add(section, "p", "intro", words.say(Phrase::readings_intro));
  add(section, "p", "intro", words.say(Phrase::decimal_point));
  Element table = add(section, "table", "readings");
  set(table, "aria-labelledby", "readings-heading");
  Element head = add(add(table, "thead"), "tr");
  set(add(head, "th", {}, words.say(Phrase::part)), "scope", "col");
  for (const double celsius : sheet_celsius)
    set(add(head, "th", "nowrap", describe(zero_celsius + celsius, Dimension::temperature)), "scope", "col");
  Element body = add(table, "tbody");
  for (const Row& row : rows) add_row(body, page, row);
}

void add_curves(Element parent, const Page& page) {
  const Catalogue& words = page.words;
  const std::vector<Drawn> all = drawn_of(page);
  if (all.empty()) return;
  Element section = add_section(parent, "curves", words.say(Phrase::curves));
  add(section, "p", "intro", words.say(Phrase::curves_intro));
  Element curves = add(section, "div", "curves");
  std::size_t number = 0;
  for (const Drawn& drawn : all) {
    const Curve_result result = curve_of(*drawn.component);
    if (!result.curve) continue;
    const std::string names = joined(drawn.names, [](Text name) { return name; });
    Chart chart = curve_chart(*result.curve, {}, chart_words(words));
    chart.title = names;
    chart.shows_title = false;
    const auto& points = result.curve->points;
    chart.description =
        words.say(Phrase::curve_described,
                  joined(std::initializer_list<const Curve_point*>{&points.front(), &points.back()},
                         [&](const Curve_point* at) {
                           return at->ohm ? words.say(Phrase::expect_at, range_text(*at->ohm, words),
                                                      temperature_text(at->kelvin, result.curve->unit))
                                          : std::string();
                         }));
    chart.width = 320;
    chart.panels.resize(1);
    chart.panels[0].height = 180;
    Element figure = add(curves, "figure", "curve");
    quote(add(figure, "figcaption"), names);
    add_picture(figure, chart_svg(chart, fmt::format("curve-{}", ++number)));
    for (const Curve_note& note : result.curve->notes)
      if (note.id != "as_made") // it is said above, of all of them
        add(figure, "p", "meta", filled(words.word("curve_note", note.id), note.filled));
  }
}

}
