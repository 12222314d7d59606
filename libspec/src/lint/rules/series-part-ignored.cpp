#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

struct In_series {
  Value<Quantity> ohm;
  std::string_view what;
};

In_series in_series(const Resolved_component& component) {
  if (const auto ohm = component.get(&Component_type::series_resistance))
    return {*ohm, "a resistor in series"};
  if (const auto ohm = component.get(&Component_type::suppressor)) return {*ohm, "a suppressor"};
  return {};
}

void check(const Subject& subject, Sink& sink) {
  each_component_test(subject, [&](Text, const Test& test, const Resolved_component& component) {
    const In_series part = in_series(component);
    if (!part.ohm || !test.side || *test.side == Side::harness) return;
    const Expectation& expect = test.expect;
    const bool closed = expect.kind && *expect.kind == Expectation_kind::closed && expect.below;
    const auto band = expected_interval(expect, Taken::generously);
    const auto most = closed ? std::optional(written_interval(*expect.below).high)
                      : band ? std::optional(band->high)
                             : std::nullopt;
    if (!most || *most >= written_interval(*part.ohm).low) return;
    sink.report(closed ? expect.below.node : expect.node,
                fmt::format("at most {} is expected, but {} has {} of {}: a healthy one reads more; raise "
                            "the limit by that",
                            ohm(closed ? expect.below->si : expected_interval(expect)->high), component.id,
                            part.what, ohm(part.ohm->si)));
    sink.relate(*component.document, component.node, "the component");
  });
}

}

extern const Rule series_part_ignored = {
    .family = Family::band,
    .severity = Severity::warning,
    .summary = "A test expects less than the resistor that lies in series inside the part.",
    .check = check,
};

}
