#include <algorithm>
#include <vector>

#include "lint/rows.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// What a platinum resistor of class C, the widest, may read in a row's temperature.
std::optional<Interval> on_curve(const Row& row, Interval r0) {
  const Interval celsius = celsius_of(written_interval(*row.row->at));
  const double off =
      rtd_class_tolerance(Rtd_class::c, std::max(std::fabs(celsius.low), std::fabs(celsius.high)));
  return platinum_resistance({celsius.low - off, celsius.high + off}, r0);
}

std::vector<std::size_t> rows_off(const std::vector<Row>& rows, Interval r0) {
  std::vector<std::size_t> off;
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (const auto band = on_curve(rows[i], r0); band && !band->overlaps(rows[i].ohm)) off.push_back(i);
  return off;
}

// The nominal at 0 °C with which most rows are right: that of the table, or a usual one.
double best_r0(const std::vector<Row>& rows) {
  std::vector<double> candidates = {100, 500, 1000};
  const auto at_zero =
      std::find_if(rows.begin(), rows.end(), [](const Row& row) { return row.row->at->si == zero_celsius; });
  if (at_zero != rows.end()) candidates.push_back(at_zero->ohm.middle());
  return *std::min_element(candidates.begin(), candidates.end(), [&](double a, double b) {
    return rows_off(rows, {a, a}).size() < rows_off(rows, {b, b}).size();
  });
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    const auto metal = component.get(&Component_type::metal);
    if (!component.is(Component_kind::rtd) || *model.kind != Model_kind::table) return;
    if (metal && **metal != Metal::platinum) return;
    const auto rows = rows_by_temperature(subject.document, model);
    if (rows.size() < 3) return;
    const double r0 = best_r0(rows);
    const auto off = rows_off(rows, {r0, r0});
    // Most rows off: another metal, or platinum of another alloy.
    if (2 * off.size() >= rows.size()) return;
    for (const std::size_t i : off) {
      const Row& row = rows[i];
      const double celsius_there = celsius_of({row.row->at->si, row.row->at->si}).middle();
      const double there =
          platinum_resistance({celsius_there, celsius_there}, {r0, r0}).value_or(row.ohm).middle();
      sink.report(row.row->node,
                  fmt::format("{} at {}, and IEC 60751 has {} there for the {} at 0 °C that the other "
                              "rows follow; look for a wrong digit",
                              ohm(*row_interval(*row.row)), celsius(row.row->at->si), ohm(there), ohm(r0)));
    }
  });
}

}

extern const Rule rtd_row_off_curve = {
    .family = Family::rtd,
    .severity = Severity::warning,
    .summary = "One row of a platinum sensor's table lies off the curve that the others follow.",
    .check = check,
};

}
