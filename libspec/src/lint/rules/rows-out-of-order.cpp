#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {

// From hot to cold, as some sheets print them.
static bool falls(const List<Table_row>& rows) {
  const auto not_colder = [](const Table_row& before, const Table_row& row) {
    return !before.at || !row.at || row.at->si >= before.at->si;
  };
  return std::adjacent_find(rows.begin(), rows.end(), not_colder) == rows.end();
}

static void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component&) {
    const Table_row* before = nullptr;
    for (const Table_row& row : model.rows) {
      if (!row.at) continue;
      if (before != nullptr && row.at->si < before->at->si) {
        sink.report_as(falls(model.rows) ? Severity::note : Severity::warning, row.at.node,
                       fmt::format("the row at {} follows the row at {}; rows stand in rising order of "
                                   "temperature, so that a slip shows when reading them",
                                   celsius(row.at->si), celsius(before->at->si)));
        sink.relate(before->at.node, "the row before");
        return; // a table that falls from end to end is one mistake
      }
      before = &row;
    }
  });
}

extern const Rule rows_out_of_order = {
    .family = Family::band,
    .severity = Severity::warning,
    .summary = "The rows of a table do not stand in rising order of temperature.",
    .check = check,
};

}
