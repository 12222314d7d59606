// R/(k + t) of a metal winding is the same at every temperature: a row where it is another has a wrong digit.
#include <algorithm>
#include <vector>

#include "lint/measured.h"
#include "lint/rows.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

struct Point {
  const Table_row* row = nullptr;
  double reduced = 0; // R/(k + t), in ohm per kelvin
  double digit = 0;   // the last digit of R, as a part of it: tables are cut off too, not only rounded
};

std::optional<double> k_of(const Resolved_component& component) {
  const bool metallic = component.is(Component_kind::winding) || component.is(Component_kind::transformer) ||
                        is_plain_coil(component);
  if (!metallic) return std::nullopt;
  const auto metal = component.get(&Component_type::metal);
  if (!metal || **metal == Metal::copper) return copper_k;
  if (**metal == Metal::aluminium) return aluminium_k;
  return std::nullopt;
}

std::vector<Point> points_of(const Resistance_model& model, double k) {
  std::vector<Point> points;
  for (const Table_row& row : model.rows) {
    if (!row.at || !row.nominal || !(row.nominal->si > 0)) continue;
    const double above = k + celsius_of({row.at->si, row.at->si}).middle();
    if (above > 0)
      points.push_back(
          {&row, row.nominal->si / above, 2 * half_of_sure_digit(*row.nominal) / row.nominal->si});
  }
  return points;
}

double middle_of(const std::vector<Point>& points) {
  std::vector<double> reduced;
  for (const Point& point : points) reduced.push_back(point.reduced);
  const auto middle = reduced.begin() + static_cast<std::ptrdiff_t>(reduced.size() / 2);
  std::nth_element(reduced.begin(), middle, reduced.end());
  return *middle;
}

std::vector<Point> points_off(const std::vector<Point>& points, double middle, double scatter) {
  std::vector<Point> off;
  for (const Point& point : points)
    if (std::fabs(point.reduced / middle - 1) > scatter + point.digit) off.push_back(point);
  return off;
}

// 234.5 and 235 as k differ by 0.1 % from 25 °C to 200 °C, and the digits of the middle row count too.
constexpr double of_computed = 0.003;
constexpr double wrong_in_computed = 0.01;
constexpr std::size_t enough_rows = 5;
// Measured ones: a meter of 1 % and a few kelvin. Common practice, no source.
constexpr double of_measured = 0.03;

// Two rows that would both be right with each other's resistance.
bool exchanged(const std::vector<Point>& off, double middle) {
  if (off.size() != 2) return false;
  const auto fits = [&](const Point& here, const Point& there) {
    const double with_others = here.reduced * there.row->nominal->si / here.row->nominal->si;
    return std::fabs(with_others / middle - 1) <= of_computed + there.digit;
  };
  return fits(off[0], off[1]) && fits(off[1], off[0]);
}

std::vector<Point> wrong_points(const std::vector<Point>& points, double middle) {
  const auto few = [&](const std::vector<Point>& off) {
    return !off.empty() && 4 * off.size() <= points.size();
  };
  if (points.size() >= enough_rows) {
    const auto loose = points_off(points, middle, of_computed);
    if (few(loose) || exchanged(loose, middle)) return points_off(points, middle, wrong_in_computed);
  }
  const auto off = points_off(points, middle, of_measured);
  return few(off) ? off : std::vector<Point>();
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    const auto k = *model.kind == Model_kind::table ? k_of(component) : std::nullopt;
    if (!k) return;
    const auto points = points_of(model, *k);
    if (points.empty()) return;
    const double middle = middle_of(points);
    for (const Point& point : wrong_points(points, middle))
      sink.report(point.row->nominal.node,
                  fmt::format("{} at {}, and the other rows give {} there by R/({} + t) of {}; look for a "
                              "wrong digit",
                              ohm(point.row->nominal->si), celsius(point.row->at->si),
                              ohm(point.row->nominal->si * middle / point.reduced), *k,
                              *k == aluminium_k ? "aluminium" : "copper"));
  });
}

}

extern const Rule copper_row_off_line = {
    .family = Family::copper,
    .severity = Severity::warning,
    .summary = "One row of a winding's table lies off the line that metal follows.",
    .check = check,
};

}
