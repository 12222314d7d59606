#include "lint/rule.h"

namespace ohmlore::rules {

// How far the row may lie from the rated resistance, beside the rounding of the row: data sheets print the
// rated value itself there. Common practice, no source.
static constexpr double allowed = 0.01;

static void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component&) {
    if (!model.resistance || !model.at || !(model.resistance->si > 0)) return;
    const double rated = model.resistance->si;
    for (const Table_row& row : model.rows) {
      if (!row.at || row.at->si != model.at->low.si || !row.nominal) continue;
      if (written_interval(*row.nominal).overlaps({rated * (1 - allowed), rated * (1 + allowed)})) continue;
      sink.report(row.nominal.node,
                  fmt::format("the row at {} has {}, and the part is rated {} there; mend the "
                              "wrong one",
                              celsius(row.at->si), ohm(row.nominal->si), ohm(rated)));
      sink.relate(model.resistance.node, "the rated resistance");
    }
  });
}

extern const Rule row_nominal_disagrees = {
    .family = Family::ntc,
    .severity = Severity::warning,
    .summary = "The row at the rated temperature does not have the rated resistance.",
    .check = check,
};

}
