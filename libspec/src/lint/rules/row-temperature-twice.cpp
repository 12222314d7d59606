#include <algorithm>
#include <span>
#include <vector>

#include "lint/read.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check_group(const Document& document, Sink& sink, std::span<const Table_row* const> rows) {
  const Table_row& first = *rows[0];
  const auto one = row_interval(first, Taken::generously);
  // The first that no part fits together with the first of all; else they only repeat each other.
  const auto wrong = std::find_if(rows.begin() + 1, rows.end(), [&](const Table_row* row) {
    const auto other = row_interval(*row, Taken::generously);
    return one && other && !one->overlaps(*other) && fully_read(document, first) &&
           fully_read(document, *row);
  });
  if (wrong != rows.end())
    sink.report_as(
        Severity::error, (*wrong)->at.node,
        fmt::format("{} has two rows, {} and {}, and no part fits both; mend a temperature or remove "
                    "the wrong row",
                    celsius(first.at->si), ohm(*row_interval(first)), ohm(*row_interval(**wrong))));
  else
    sink.report_as(Severity::warning, rows[1]->at.node,
                   fmt::format("{} has {} rows; leave one", celsius(first.at->si), rows.size()));
  sink.relate(first.at.node, "the first row");
}

static void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component&) {
    const auto colder = [](const Table_row* a, const Table_row* b) { return a->at->si < b->at->si; };
    std::vector<const Table_row*> rows;
    rows.reserve(model.rows.size());
    for (const Table_row& row : model.rows)
      if (row.at) rows.push_back(&row);
    if (!std::is_sorted(rows.begin(), rows.end(), colder)) std::stable_sort(rows.begin(), rows.end(), colder);
    for (std::size_t first = 0, last = 0; first < rows.size(); first = last) {
      while (last < rows.size() && rows[last]->at->si == rows[first]->at->si) ++last;
      if (last - first > 1) check_group(subject.document, sink, std::span(rows).subspan(first, last - first));
    }
  });
}

extern const Rule row_temperature_twice = {
    .family = Family::band,
    .severity = Severity::error,
    .summary = "A table has two rows for one temperature.",
    .check = check,
};

}
