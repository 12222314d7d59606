#include <algorithm>
#include <span>
#include <utility>
#include <vector>

#include "lint/falling.h"
#include "lint/platinum.h"
#include "lint/read.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// How far a row may be off the curve: as far as a resistor of class C, the widest, or of class B; or hardly,
// where the table is one that was computed from the curve, which shows in most of its rows.
enum class Scatter : std::uint8_t { of_class_c, of_digits_and_class_b, of_digits };

std::optional<Interval> nominal_digits(const Table_row& row) {
  if (!row.nominal) return std::nullopt;
  // A whole digit: some tables are cut off, not rounded.
  const double digit = 2 * half_of_sure_digit(*row.nominal);
  return Interval{row.nominal->si - digit, row.nominal->si + digit};
}

// Whether a row lies on the curve of a nominal at 0 °C; empty where that cannot be said.
std::optional<bool> on_curve(const Row& row, double r0, Scatter scatter) {
  const Interval celsius = celsius_of(written_interval(*row.row->at));
  if (scatter == Scatter::of_class_c) {
    const double off =
        rtd_class_tolerance(Rtd_class::c, std::max(std::fabs(celsius.low), std::fabs(celsius.high)));
    const auto band = platinum_resistance({celsius.low - off, celsius.high + off}, {r0, r0});
    if (!band) return std::nullopt;
    return band->overlaps(row.ohm);
  }
  const auto digits = nominal_digits(*row.row);
  const double there = celsius.middle();
  const auto curve = platinum_resistance({there, there}, {r0, r0});
  if (!digits || !curve) return std::nullopt;
  // Tables before ITS-90 differ from the curve of today by up to 0.08 % of R - R0 (from memory: 390.26 Ω
  // instead of 390.48 Ω at 850 °C).
  const double older = 0.001 * std::fabs(curve->middle() - r0);
  if (scatter == Scatter::of_digits)
    return Interval{curve->low - older, curve->high + older}.overlaps(*digits);
  const double off = rtd_class_tolerance(Rtd_class::b, there);
  // As far below as above, where the curve is steeper: at an end of its range it has one side only.
  const auto around =
      platinum_resistance({std::max(there - off, -200.0), std::min(there + off, 850.0)}, {r0, r0});
  if (!around) return std::nullopt;
  const double half = std::max(curve->high - around->low, around->high - curve->low);
  return Interval{curve->low - half, curve->high + half}.overlaps(*digits);
}

std::vector<std::size_t> rows_off(const std::vector<Row>& rows, double r0, Scatter scatter) {
  std::vector<std::size_t> off;
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (!on_curve(rows[i], r0, scatter).value_or(true)) off.push_back(i);
  return off;
}

// The nominal at 0 °C with which most rows are right: that of the table, or a usual one.
double best_r0(const std::vector<Row>& rows) {
  std::vector<double> candidates(std::begin(usual_r0), std::end(usual_r0));
  const auto at_zero =
      std::find_if(rows.begin(), rows.end(), [](const Row& row) { return row.row->at->si == zero_celsius; });
  if (at_zero != rows.end()) candidates.push_back(at_zero->ohm.middle());
  const auto rows_wrong = [&](double r0) {
    return std::pair{rows_off(rows, r0, Scatter::of_digits).size(),
                     rows_off(rows, r0, Scatter::of_class_c).size()};
  };
  double best = candidates.front();
  auto least = rows_wrong(best);
  for (const double r0 : std::span(candidates).subspan(1))
    if (const auto wrong = rows_wrong(r0); wrong < least) best = r0, least = wrong;
  return best;
}

// Whether all rows off the curve lie before or behind those on it, as where two curves cross.
bool lie_at_ends(const std::vector<std::size_t>& off, std::size_t rows) {
  std::size_t before = 0, behind = 0;
  while (before < off.size() && off[before] == before) ++before;
  while (behind < off.size() && off[off.size() - 1 - behind] == rows - 1 - behind) ++behind;
  return before + behind >= off.size();
}

constexpr std::size_t enough_rows = 5; // to see that a table was computed

// `all_read`: no further row stands there that could not be read.
std::vector<std::size_t> wrong_rows(const std::vector<Row>& rows, double r0, bool all_read) {
  if (rows.size() >= enough_rows) {
    const auto off = rows_off(rows, r0, Scatter::of_digits);
    const auto with_nominal = static_cast<std::size_t>(
        std::count_if(rows.begin(), rows.end(), [](const Row& row) { return row.row->nominal.node != 0; }));
    if (4 * off.size() <= with_nominal) return rows_off(rows, r0, Scatter::of_digits_and_class_b);
  }
  const auto off = rows_off(rows, r0, Scatter::of_class_c);
  // Most rows off, or several from one on: another metal, or platinum of another alloy.
  const bool other_curve =
      2 * off.size() >= rows.size() || ((off.size() > 1 || !all_read) && lie_at_ends(off, rows.size()));
  return other_curve ? std::vector<std::size_t>() : off;
}

constexpr std::string_view no_metal_falls = "the resistance of a metal rises with temperature";

void check_platinum(Sink& sink, const std::vector<Row>& rows, double r0, const std::vector<std::size_t>& off,
                    std::string_view what_to_do) {
  for (const std::size_t i : off) {
    const Row& row = rows[i];
    const auto falls = nearest_rows(rows.size(), i, 1, [&](std::size_t j) {
      return surely_falls(rows[std::min(i, j)], rows[std::max(i, j)]);
    });
    const Row* other = falls.empty() ? nullptr : &rows[falls[0]];
    const double celsius_there = celsius_of({row.row->at->si, row.row->at->si}).middle();
    const double there =
        platinum_resistance({celsius_there, celsius_there}, {r0, r0}).value_or(row.ohm).middle();
    std::string message =
        fmt::format("{} at {}, and IEC 60751 has {} there for the {} at 0 °C that the other rows follow; ",
                    row.row->nominal ? ohm(row.row->nominal->si) : ohm(*row_interval(*row.row)),
                    celsius(row.row->at->si), ohm(there), ohm(r0));
    if (other == nullptr) {
      sink.report(row.row->node, message + std::string(what_to_do));
      continue;
    }
    // Whatever metal it is.
    sink.report_as(Severity::error, row.row->node,
                   fmt::format("{}it is {} {} at {}, and {}; {}", message, falls[0] < i ? "below" : "above",
                               ohm(*row_interval(*other->row)), celsius(other->row->at->si), no_metal_falls,
                               what_to_do));
    sink.relate(other->row->node, fmt::format("the row at {}", celsius(other->row->at->si)));
  }
}

// One that falls altogether is no metal at all: model-unfit-for-kind.
void check_rising(Sink& sink, const std::vector<Row>& rows) {
  if (!rows.empty() && !surely_falls(rows.front(), rows.back()))
    report_falling_rows(sink, rows, no_metal_falls, [](double) { return Severity::error; });
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (!component.is(Component_kind::rtd) || *model.kind != Model_kind::table) return;
    const std::vector<Row>& rows = rows_of(subject, model).rows;
    const auto metal = component.get(&Component_type::metal);
    const bool may_be_platinum =
        metal ? **metal == Metal::platinum : !may_have(component, "metal", component.own->metal);
    if (!may_be_platinum || rows.size() < 3) return check_rising(sink, rows);
    const double r0 = best_r0(rows);
    const auto off = wrong_rows(rows, r0, fully_read(subject.document, model));
    if (off.empty()) return check_rising(sink, rows);
    check_platinum(sink, rows, r0, off,
                   metal ? "look for a wrong digit"
                         : "look for a wrong digit, or state its `metal` if it is not platinum");
    std::vector<Row> others = rows;
    for (std::size_t i = off.size(); i-- > 0;)
      others.erase(others.begin() + static_cast<std::ptrdiff_t>(off[i]));
    check_rising(sink, others);
  });
}

}

extern const Rule rtd_row_off_curve = {
    .family = Family::rtd,
    .severity = Severity::warning,
    .summary = "One row of a resistance thermometer's table lies off the curve that the others follow.",
    .check = check,
};

}
