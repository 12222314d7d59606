#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// What in the coil conducts one way only; empty where nothing does.
std::string_view valve_in(const Resolved_component& coil) {
  if (coil.has(&Component_type::suppression, Suppression::bridge)) return "a bridge rectifier";
  if (coil.has(&Component_type::suppression, Suppression::series_diode)) return "a diode in series";
  if (coil.has(&Component_type::drive, Drive::rectified)) return "a rectifier";
  return {};
}

void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text, const Test& test) {
    const Resolved_component* component = subject.resolved.component_of(test);
    if (component == nullptr || !component->is(Component_kind::coil)) return;
    const std::string_view valve = valve_in(*component);
    const bool band = !stated(subject.document, test, "expect", test.expect) ||
                      (test.expect.kind && *test.expect.kind == Expectation_kind::band);
    if (valve.empty() || !band || stated(subject.document, test, "positive", test.positive)) return;
    sink.report(test.node,
                fmt::format("{} has {}, so that the reading depends on which lead is where and on the "
                            "meter's voltage; name the contact for the positive lead in `positive`, or "
                            "expect kind `both_directions`",
                            component->id, valve));
    sink.relate(*component->document, component->node, "the coil");
  });
}

}

extern const Rule coil_polarity_unstated = {
    .family = Family::coil,
    .severity = Severity::warning,
    .summary = "A rectified coil is tested with one band and no polarity of the leads.",
    .check = check,
};

}
