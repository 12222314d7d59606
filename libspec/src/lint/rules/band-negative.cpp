#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  for (const Quantity_use& use : subject.document.quantities()) {
    if (use.grammar != Quantity_grammar::quantity || !use.allowed.has(Dimension::resistance)) continue;
    const auto parsed = parse_quantity(subject.document.string(use.node), use.allowed);
    if (parsed.value && parsed.value->dimension == Dimension::resistance && parsed.value->si < 0)
      sink.report(use.node, fmt::format("{} is below 0 Ω, which no part that is tested dead can have; remove "
                                        "the minus",
                                        ohm(parsed.value->si)));
  }
}

extern const Rule band_negative = {
    .family = Family::band,
    .severity = Severity::error,
    .summary = "A resistance is negative.",
    .check = check,
};

}
