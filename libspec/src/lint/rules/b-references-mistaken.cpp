#include "lint/b_values.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    const auto b = is_bare_ntc(component) ? stated_b(model) : std::nullopt;
    const auto other = b ? other_references(model, *b) : std::nullopt;
    if (!other) return;
    sink.report(
        model.b_between.node,
        fmt::format("the rows give {} {} but {} {}, and {} is stated: that is for {} and {}; state these "
                    "in `b_between`, or mend B",
                    b_name(b->from, b->to), kelvin(b->of_rows), b_name(other->from, other->to),
                    kelvin(other->of_rows), kelvin(model.b_value->si), celsius(other->from),
                    celsius(other->to)));
    sink.relate(model.b_value.node, "the B-value");
  });
}

extern const Rule b_references_mistaken = {
    .family = Family::ntc,
    .severity = Severity::warning,
    .summary = "A B-value is stated between the two temperatures of another B-value.",
    .check = check,
};

}
