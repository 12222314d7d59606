#include "lint/measured.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

void check(const Subject& subject, Sink& sink) {
  each_component_test(subject, [&](Text id, const Test& test, const Resolved_component& component) {
    if (!test.side || *test.side != Side::harness) return;
    if (component.is(Component_kind::electrode)) return; // its lead is a part of it, perhaps with a resistor
    constexpr std::string_view remedy = "the wires alone are closed from end to end and open to each other; "
                                        "expect `closed` or `open`";
    if (!stated(subject.document, test, "expect", test.expect)) {
      if (component.get(&Component_type::model))
        sink.report(test.side.node,
                    fmt::format("{} expects nothing of its own, so that the model of {} would "
                                "hold, which hangs on neither end: {}",
                                id, component.id, remedy));
      return;
    }
    const auto band = expected(subject, test, Taken::generously);
    if (band && band->low > most_of_wires)
      sink.report(test.expect.node, fmt::format("{} expects {} of wires that are unplugged at both ends: {}",
                                                id, ohm(*expected(subject, test)), remedy));
  });
}

}

extern const Rule harness_read_as_component = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "The wires alone are expected to read like the component.",
    .check = check,
};

}
