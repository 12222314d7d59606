#include "lint/readings.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// A thermocouple of type K gives about 0.04 mV a kelvin (IEC 60584-1), an ohmmeter drives some mV through its
// few milliohms. Common practice, no source: within 20 K of the other end it may be read.
constexpr double warm = zero_celsius + 45;

void check(const Subject& subject, Sink& sink) {
  each_component_test(subject, [&](Text id, const Test& test, const Resolved_component& component) {
    if (!must_be_cold(component, test)) return;
    if (test.expect.at && kelvin_interval(*test.expect.at).high > warm)
      sink.report(
          test.expect.at.node,
          fmt::format("at {} {} gives a voltage of its own, which an ohmmeter takes for a part of the "
                      "reading; test it cold",
                      celsius(kelvin_interval(*test.expect.at)), component.id));
    else if (!test.expect.at && !test.before)
      sink.report_as(
          Severity::note, test.node,
          fmt::format("{} gives a voltage of its own while warm; say in `before` of {} that it must "
                      "cool down",
                      component.id, id));
  });
}

}

extern const Rule thermocouple_warm = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A thermocouple is to be tested while it is warm.",
    .check = check,
    .goes_by_absence = true,
};

}
