#include "lint/rule.h"

namespace ohmlore::rules {

// What is missing of a band; empty where nothing is. A member that could not be read is not missing.
template <class Band>
static std::string_view missing(const Document& document, const Band& band) {
  const bool nominal = stated(document, band, "nominal", band.nominal),
             tolerance = stated(document, band, "tolerance", band.tolerance),
             min = stated(document, band, "min", band.min), max = stated(document, band, "max", band.max);
  if (min && !max)
    return "min without max: nothing limits a reading upwards; give max too, or nominal with tolerance";
  if (max && !min)
    return "max without min: nothing limits a reading downwards; give min too, or nominal with tolerance";
  if (nominal || min) return {};
  return tolerance ? "a tolerance without the nominal that it belongs to; give nominal too, or min and max"
                   : "no resistance is stated; give nominal with tolerance, or min and max";
}

static void check(const Subject& subject, Sink& sink) {
  const Document& document = subject.document;
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component&) {
    for (const Table_row& row : model.rows)
      if (const auto words = row ? missing(document, row) : std::string_view(); !words.empty())
        sink.report(row.node, std::string(words));
    if ((*model.kind == Model_kind::fixed || *model.kind == Model_kind::copper) &&
        !stated(document, model, "resistance", model.resistance) &&
        !stated(document, model, "pairs", model.pairs))
      sink.report(model.node, "no resistance is stated; give `resistance`, or `pairs` for a part with more "
                              "than two terminals");
  });
  each_test(subject, [&](Text, const Test& test) {
    const Expectation& expect = test.expect;
    if (!expect || !expect.kind || *expect.kind != Expectation_kind::band) return;
    if (const auto words = missing(document, expect); !words.empty())
      sink.report(expect.node,
                  fmt::format("{}{}", words,
                              stated(document, expect, "min", expect.min)
                                  ? "; a reading that only has to be high is kind `open` or `not_short`"
                              : stated(document, expect, "max", expect.max)
                                  ? "; a reading that only has to be low is kind `closed`"
                                  : ""));
  });
}

extern const Rule band_incomplete = {
    .family = Family::band,
    .severity = Severity::error,
    .summary = "A band lacks a limit, or states no resistance at all.",
    .check = check,
};

}
