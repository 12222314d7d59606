#include "lint/contacts.h"
#include "lint/readings.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// What conducts beside the open path of a component; empty where nothing is stated.
std::string parallel_path(const Subject& subject, const Test& test, const Resolved_component& component,
                          double above) {
  const auto indicator = component.get(&Component_type::indicator);
  // Who asks for less than of a bare contact allows for the lamp.
  if (indicator && **indicator && test.expect.above->si >= open_at_least)
    return "has an indicator lamp in parallel, through which it reads";
  if (const auto bleeder = component.get(&Component_type::bleeder);
      bleeder && above > written_interval(**bleeder).high)
    return fmt::format("has a bleeder of {} in parallel, so that it cannot read more", ohm((*bleeder)->si));
  const auto path = component.get(&Component_type::path);
  if (!path || **path != Electrode_path::transformer) return {};
  return touches(subject.resolved, test, Circuit_class::protective_earth)
             ? "has a path to earth through the winding of its transformer"
             : "";
}

void check(const Subject& subject, Sink& sink) {
  each_component_test(subject, [&](Text, const Test& test, const Resolved_component& component) {
    const Expectation& expect = test.expect;
    const bool open = expect.kind && (*expect.kind == Expectation_kind::open ||
                                      *expect.kind == Expectation_kind::rises_to_open);
    if (!open || !expect.above || !test.side || *test.side == Side::harness) return;
    // What is disconnected may be the path itself.
    if (stated(subject.document, test, "disconnect_also", test.disconnect_also)) return;
    const std::string path = parallel_path(subject, test, component, written_interval(*expect.above).low);
    if (path.empty()) return;
    sink.report(expect.above.node,
                fmt::format("{} or more is expected, but {} {}; lower the limit to what a healthy one "
                            "reads, or say in `disconnect_also` what comes off",
                            ohm(expect.above->si), component.id, path));
    sink.relate(*component.document, component.node, "the component");
  });
}

}

extern const Rule parallel_path_ignored = {
    .family = Family::band,
    .severity = Severity::warning,
    .summary = "A test expects an open path where something conducts in parallel.",
    .check = check,
};

}
