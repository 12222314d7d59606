#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_component_test(subject, [&](Text id, const Test& test, const Resolved_component& component) {
    if (!component.is(Component_kind::electronic) || !test.expect.kind || !test.side ||
        *test.side == Side::harness || test.positive)
      return;
    const Expectation_kind kind = *test.expect.kind;
    if (kind != Expectation_kind::not_short && kind != Expectation_kind::rises_to_open) return;
    // Behind a bridge rectifier both ways round are alike.
    const auto volt = component.get(&Component_type::rated_voltage);
    const bool rectifies = volt && (*volt)->form == Supply_form::ac;
    if (component.lacks_part() || touches(subject.resolved, test, Circuit_class::protective_earth) ||
        (rectifies && touches(subject.resolved, test, Circuit_class::mains)))
      return;
    sink.report(test.probes.node,
                fmt::format("{} reads through the supply pins of electronics, which conduct one way round; "
                            "name the contact for the positive lead in `positive`",
                            id));
    sink.relate(*component.document, component.node, "the component");
  });
}

extern const Rule electronic_polarity_unstated = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "Electronics are tested for a short without saying which way round.",
    .check = check,
    .goes_by_absence = true,
};

}
