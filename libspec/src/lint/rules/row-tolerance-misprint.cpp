// The tolerance of a table changes little from row to row: one that is ten times its neighbours', or a tenth,
// has its point in the wrong place.
#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// Matched parts are exact at one temperature and spread from there: in a table of few rows that looks alike.
constexpr std::size_t enough_rows = 5;
// Tenfold, as near as what lies between the neighbours tells, and what neighbours differ by at most, so that
// none is taken for wrong beside a wrong one. Common practice, no source.
constexpr Interval tenfold = {10 / 1.5, 10 * 1.5};
constexpr Interval alike = {1.0 / 3, 3};

bool states_spread(const Table_row& row) {
  return row.at && row.nominal && row.tolerance && row.nominal->si > 0;
}

// Half of the width of a row, as a part of its nominal.
double spread(const Table_row& row) {
  const double half = (row.tolerance->minus + row.tolerance->plus) / 2;
  return row.tolerance->relative() ? half : half / row.nominal->si;
}

// What the neighbours let expect.
double spread_between(const Table_row& colder, const Table_row& hotter, double kelvin) {
  const double share = (kelvin - colder.at->si) / (hotter.at->si - colder.at->si);
  return (1 - share) * spread(colder) + share * spread(hotter);
}

// Where parts are adjusted: their spread is honestly least there.
bool is_reference(const Resistance_model& model, bool metal, double kelvin) {
  const double celsius = metal ? 0 : 25;
  return kelvin == zero_celsius + celsius || kelvin == zero_celsius + 20 ||
         (model.at && kelvin_interval(*model.at).contains(kelvin));
}

void check_row(Sink& sink, const Resistance_model& model, bool metal, const Table_row& colder,
               const Table_row& row, const Table_row& hotter) {
  if (!(colder.at->si < row.at->si && row.at->si < hotter.at->si)) return;
  if (!alike.contains(spread(colder) / spread(hotter))) return;
  const double own = spread(row), expected = spread_between(colder, hotter, row.at->si);
  const bool too_wide = tenfold.contains(own / expected);
  const bool too_narrow = tenfold.contains(expected / own) && !is_reference(model, metal, row.at->si);
  if (!too_wide && !too_narrow) return;
  sink.report(row.tolerance.node,
              fmt::format("±{} at {} lies between ±{} at {} and ±{} at {}: a misprint of {}?", percent(own),
                          celsius(row.at->si), percent(spread(colder)), celsius(colder.at->si),
                          percent(spread(hotter)), celsius(hotter.at->si),
                          percent(too_wide ? own / 10 : own * 10)));
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    const auto stating = std::count_if(model.rows.begin(), model.rows.end(), states_spread);
    if (static_cast<std::size_t>(stating) < enough_rows) return;
    const Table_row *colder = nullptr, *row = nullptr;
    for (const Table_row& hotter : model.rows) {
      if (!states_spread(hotter)) continue;
      if (colder != nullptr) check_row(sink, model, component.is(Component_kind::rtd), *colder, *row, hotter);
      colder = row;
      row = &hotter;
    }
  });
}

}

extern const Rule row_tolerance_misprint = {
    .family = Family::band,
    .severity = Severity::warning,
    .summary = "The tolerance of one row is ten times that of its neighbours, or a tenth of it.",
    .check = check,
    .goes_by_absence = true,
};

}
