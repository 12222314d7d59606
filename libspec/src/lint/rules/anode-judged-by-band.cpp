#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

void check(const Subject& subject, Sink& sink) {
  each_component_test(subject, [&](Text, const Test& test, const Resolved_component& component) {
    if (!component.is(Component_kind::anode) || (test.side && *test.side == Side::harness)) return;
    if (!test.expect.kind || *test.expect.kind != Expectation_kind::band) return;
    // The tank may have been emptied, or the anode be off its lead.
    if (stated(subject.document, test.node, "before") ||
        stated(subject.document, test.node, "disconnect_also"))
      return;
    sink.report(
        test.expect.kind.node,
        fmt::format("{} and its tank make a cell in the water, whose voltage an ohmmeter takes for a "
                    "part of the reading: no band holds; expect that it is not short (`not_short`), or "
                    "say in `before` that the tank is emptied",
                    component.id));
    sink.relate(*component.document, component.node, "the anode");
  });
}

}

extern const Rule anode_judged_by_band = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A test expects a resistance between two limits at an anode in its water.",
    .check = check,
};

}
