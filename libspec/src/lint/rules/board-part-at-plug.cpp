#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_component_test(subject, [&](Text id, const Test& test, const Resolved_component& component) {
    const auto fitted = component.get(&Component_type::fitted_on_board);
    if (!fitted || !**fitted || !test.side || *test.side == Side::at_component) return;
    sink.report(test.side.node,
                fmt::format("{} is fitted on the board, and {} measures `{}`, where the board is no longer "
                            "connected; take the part off the board and measure `at_component`",
                            component.id, id, word_of(*test.side)));
    sink.relate(*fitted.document, fitted->node, "fitted on the board");
  });
}

extern const Rule board_part_at_plug = {
    .family = Family::safety,
    .severity = Severity::warning,
    .summary = "A part that sits on the board is to be measured at the withdrawn plug.",
    .check = check,
};

}
