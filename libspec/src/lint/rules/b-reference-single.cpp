#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component&) {
    if (!model.b_between || model.b_between->low.si != model.b_between->high.si) return;
    sink.report(model.b_between.node,
                fmt::format("a B-value belongs to two temperatures, and this states {} only; "
                            "give both, as \"25 °C to 85 °C\" for B25/85",
                            celsius(model.b_between->low.si)));
  });
}

extern const Rule b_reference_single = {
    .family = Family::ntc,
    .severity = Severity::error,
    .summary = "A B-value is stated at one temperature instead of between two.",
    .check = check,
};

}
