#include <algorithm>
#include <vector>

#include "lint/read.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component&) {
    std::vector<const Table_row*> rows;
    for (const Table_row& row : model.rows)
      if (row.at) rows.push_back(&row);
    std::stable_sort(rows.begin(), rows.end(),
                     [](const Table_row* a, const Table_row* b) { return a->at->si < b->at->si; });
    for (std::size_t i = 1; i < rows.size(); ++i) {
      const Table_row &first = *rows[i - 1], &again = *rows[i];
      if (first.at->si != again.at->si) continue;
      const auto one = row_interval(first, Taken::generously), other = row_interval(again, Taken::generously);
      const bool contradict = one && other && !one->overlaps(*other) && fully_read(subject.document, first) &&
                              fully_read(subject.document, again);
      sink.report_as(contradict ? Severity::error : Severity::warning, again.at.node,
                     contradict ? fmt::format("{} has two rows, {} and {}, and no part fits both; mend a "
                                              "temperature or remove the wrong row",
                                              celsius(again.at->si), ohm(*row_interval(first)),
                                              ohm(*row_interval(again)))
                                : fmt::format("{} has two rows; remove one", celsius(again.at->si)));
      sink.relate(first.at.node, "the other row");
    }
  });
}

extern const Rule row_temperature_twice = {
    .family = Family::ntc,
    .severity = Severity::error,
    .summary = "A table has two rows for one temperature.",
    .check = check,
};

}
