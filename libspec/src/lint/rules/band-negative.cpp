#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  for (const Quantity_use& use : subject.document.quantities()) {
    const Quantity& value = use.value.low;
    if (use.grammar == Quantity_grammar::quantity && value.dimension == Dimension::resistance && value.si < 0)
      sink.report(use.node, fmt::format("{} is below 0 Ω, which no part that is tested dead can have; remove "
                                        "the minus",
                                        ohm(value.si)));
  }
}

extern const Rule band_negative = {
    .family = Family::band,
    .severity = Severity::error,
    .summary = "A resistance is negative.",
    .check = check,
};

}
