#include "lint/rows.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (!is_bare_ntc(component)) return;
    const auto& [rows, impossible] = rows_of(subject, model);
    for (const Impossible_row& found : impossible) {
      if (found.why != Ntc_clash::rises) continue;
      const Row &row = rows[found.row], &witness = rows[found.witness];
      const bool hotter = row.row->at->si > witness.row->at->si;
      const auto [one, other] = apart(*row_interval(*row.row), *row_interval(*witness.row));
      sink.report(
          row.row->node,
          fmt::format("{} at {} is {} {} at {}: the resistance of an NTC falls as it gets warmer; mend "
                      "one of the two rows",
                      one, celsius(row.row->at->si), hotter ? "above" : "below", other,
                      celsius(witness.row->at->si)));
      sink.relate(witness.row->node, fmt::format("the row at {}", celsius(witness.row->at->si)));
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
