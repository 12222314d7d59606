#include <algorithm>

#include "lint/contacts.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// Greatest over least resistance. Common practice, no source: at one temperature no sensor, coil, winding or
// heater spreads by more than ±50 %, which is a factor of 3; over all temperatures that a test may meet, a
// thermistor changes by a factor of about 100.
constexpr double most_at_one_temperature = 4;
constexpr double most_over_temperatures = 200;

// Parts of which a wide band is all that anybody can say, and closed contacts, which have no resistance to
// lose.
bool spreads_widely(const Resolved_component* component) {
  if (component != nullptr && component->is(Component_kind::heater)) {
    const auto element = component->get(&Component_type::element);
    return !element || **element != Heater_element::wire;
  }
  static constexpr Component_kind kinds[] = {
      Component_kind::ptc,         Component_kind::photocell,     Component_kind::electronic,
      Component_kind::capacitor,   Component_kind::electrode,     Component_kind::igniter,
      Component_kind::anode,       Component_kind::potentiometer, Component_kind::thermocouple,
      Component_kind::transformer, Component_kind::switch_,       Component_kind::fuse};
  return component == nullptr || !component->known_kind ||
         std::find(std::begin(kinds), std::end(kinds), component->kind()) != std::end(kinds);
}

bool is_too_wide(const std::optional<Interval>& band, bool one_temperature) {
  const double most = one_temperature ? most_at_one_temperature : most_over_temperatures;
  return band && band->low > 0 && band->high > most * band->low;
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
    if (spreads_widely(&component)) return;
    for (const Table_row& row : model.rows)
      if (const auto band = row_interval(row); is_too_wide(band, true)) report(sink, *band, row.node, true);
  });
  each_test(subject, [&](Text, const Test& test) {
    const Resolved_component* component = subject.resolved.component_of(test);
    const Expectation& expect = test.expect;
    if (!expect || spreads_widely(component)) return;
    const bool sensor = component->is(Component_kind::ntc) || component->is(Component_kind::rtd);
    const bool one_temperature = !sensor || (expect.at && kelvin_interval(*expect.at).width() == 0);
    const auto& band = expected(subject, test);
    // Wires alone, or a path that must not be.
    if (!is_too_wide(band, one_temperature) || (test.side && *test.side == Side::harness) ||
        touches(subject.resolved, test, Circuit_class::protective_earth))
      return;
    report(sink, *band, expect.node, one_temperature);
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
