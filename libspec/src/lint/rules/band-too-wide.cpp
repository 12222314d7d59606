#include "lint/contacts.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// Greatest over least resistance. Common practice, no source: at one temperature no sensor, coil, winding or
// heater spreads by more than ±50 %, which is a factor of 3; over all temperatures that a test may meet, a
// thermistor changes by a factor of about 100. Of the rest that conducts, limits of two prefixes are a slip.
constexpr double most_at_one_temperature = 4;
constexpr double most_over_temperatures = 200;
constexpr double most_of_one_prefix = 1000;

// Empty for parts of which a wide band is all that anybody can say, and for closed contacts, which have no
// resistance to lose.
std::optional<double> most_times(const Resolved_component* component, const std::optional<Interval>& kelvin) {
  if (component == nullptr || !component->known_kind) return std::nullopt;
  const bool one_temperature = kelvin && kelvin->width() == 0;
  if (is_temperature_sensor(*component))
    return one_temperature ? most_at_one_temperature : most_over_temperatures;
  const auto element = component->get(&Component_type::element);
  switch (component->kind()) {
  case Component_kind::coil:
  case Component_kind::winding:
  case Component_kind::resistor:
  case Component_kind::coding: return most_at_one_temperature;
  case Component_kind::heater:
    return element && **element == Heater_element::wire ? most_at_one_temperature : most_of_one_prefix;
  case Component_kind::igniter:
    if (!element || **element == Heater_element::spark) return std::nullopt;
    return most_of_one_prefix;
  case Component_kind::transformer: return most_of_one_prefix;
  case Component_kind::ptc: { // beyond room temperature it may switch
    constexpr Interval room = {zero_celsius, zero_celsius + 50};
    if (!one_temperature || !room.contains(*kelvin)) return std::nullopt;
    return most_of_one_prefix;
  }
  default: return std::nullopt;
  }
}

bool is_too_wide(const std::optional<Interval>& band, const std::optional<double>& most) {
  return band && most && band->low > 0 && band->high > *most * band->low;
}

void report(Sink& sink, Interval band, Node_id node, bool one_temperature) {
  sink.report(node,
              fmt::format("{}: the upper limit is {:.{}f} times the lower one, so that a part which lost "
                          "most of its resistance still passes; state narrower limits{}",
                          ohm(band), band.high / band.low, band.high < 10 * band.low ? 1 : 0,
                          one_temperature ? "" : ", or the temperature at which they hold"));
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    for (const Table_row& row : model.rows) {
      const double at = row.at ? row.at->si : 0;
      if (const auto band = row_interval(row); is_too_wide(band, most_times(&component, Interval{at, at})))
        report(sink, *band, row.node, true);
    }
  });
  each_test(subject, [&](Text, const Test& test) {
    const Expectation& expect = test.expect;
    if (!expect) return;
    std::optional<Interval> kelvin;
    if (expect.at) kelvin = kelvin_interval(*expect.at);
    const auto most = most_times(subject.resolved.component_of(test), kelvin);
    const auto& band = expected(subject, test);
    // Wires alone, or a path that must not be.
    if (!is_too_wide(band, most) || (test.side && *test.side == Side::harness) ||
        touches(subject.resolved, test, Circuit_class::protective_earth))
      return;
    report(sink, *band, expect.node, *most != most_over_temperatures);
  });
}

}

extern const Rule band_too_wide = {
    .family = Family::band,
    .severity = Severity::warning,
    .summary = "A band is so wide that a faulty part passes it.",
    .check = check,
    .goes_by_absence = true,
};

}
