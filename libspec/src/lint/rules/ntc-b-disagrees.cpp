#include "lint/b_values.h"

namespace ohmlore::rules {

// The tolerance of a B-value that states none: the least that makers state for sensors, ±1 %.
static constexpr double usual = 0.01;

static void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    const auto b = is_bare_ntc(component) ? stated_b(model) : std::nullopt;
    if (!b || other_references(model, *b)) return;
    const Interval allowed = model.b_tolerance
                                 ? toleranced_interval(*model.b_value, model.b_tolerance, Taken::generously)
                                 : b->stated * Interval{1 - usual, 1 + usual};
    if (b->of_rows.overlaps(allowed)) return;
    const std::string within =
        model.b_tolerance ? fmt::format(" ({})", kelvin(allowed)) : " (±1 % allowed, as no tolerance is)";
    sink.report(
        model.b_value.node,
        fmt::format("the rows give {} {}{}, and {}{} is stated; look for a wrong digit in the rows {} {} and "
                    "{}, or in B",
                    b_name(b->from, b->to), kelvin(b->of_rows),
                    b->interpolated ? ", interpolated as thermistors run" : "", kelvin(model.b_value->si),
                    within, b->interpolated ? "around" : "at", celsius(b->from), celsius(b->to)));
  });
}

extern const Rule ntc_b_disagrees = {
    .family = Family::ntc,
    .severity = Severity::warning,
    .summary = "The rows of a table give another B-value than the one stated.",
    .check = check,
};

}
