#include "lint/rows.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (!is_bare_ntc(component)) return;
    const auto& [rows, impossible] = rows_of(subject, model);
    for (const Impossible_row& found : impossible) {
      if (!found.rises) continue;
      const auto say = [&, &rows = rows](std::size_t i) {
        const Row &row = rows[found.row], &witness = rows[i];
        const bool hotter = row.row->at->si > witness.row->at->si;
        const auto [one, other] = apart(*row_interval(*row.row), *row_interval(*witness.row));
        return fmt::format("{} at {} is {} {} at {}: the resistance of an NTC falls as it gets warmer; mend "
                           "one of the two rows",
                           one, celsius(row.row->at->si), hotter ? "above" : "below", other,
                           celsius(witness.row->at->si));
      };
      report_row(sink, rows, found.row, found.witnesses, say, [](std::size_t) { return Severity::error; });
    }
  });
}

extern const Rule ntc_rises = {
    .family = Family::ntc,
    .severity = Severity::error,
    .summary = "A table of a bare NTC rises with temperature.",
    .check = check,
};

}
