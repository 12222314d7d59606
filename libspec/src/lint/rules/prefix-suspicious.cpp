#include <algorithm>

#include "lint/contacts.h"
#include "lint/measured.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "lint/spelling.h"
#include "lint/usual.h"
#include "lint/windings.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

constexpr double kilo = 1e3, mega = 1e6, giga = 1e9;

constexpr Usual open_path = {{5 * kilo, 10 * giga}, "an open path"};
constexpr Usual bridged_path = {{1 * kilo, 10 * giga}, "an open path with a part beside it"};
constexpr Usual risen = {{1 * kilo, 10 * giga}, "a reading that rises to open"};
constexpr Usual closed_path = {{0.01, 10 * kilo}, "a closed contact or link"};
constexpr Usual bare_contact = {{0.01, 400}, "a closed contact with nothing in series"};
constexpr Usual no_short = {{0.1, 100 * mega}, "what is not a short"};
constexpr Usual suppressor = {{100, 50 * kilo}, "the suppressor of an electrode"};
constexpr Usual bleeder = {{1 * kilo, 100 * mega}, "a bleeder"};
constexpr Usual dark = {{1 * kilo, 10 * giga}, "a photocell in the dark"};
constexpr Usual light = {{10, 1 * mega}, "a photocell in room light"};
constexpr Usual capacitance = {{100e-12, 20e-3}, "a capacitor"};
constexpr Usual ac_capacitance = {{100e-12, 1.5e-3}, "a capacitor for ac"}; // of the largest motors, to start
constexpr Usual fuse_rating = {{10e-3, 125}, "the rating of a fuse"};
constexpr Usual heating_power = {{1, 100 * kilo}, "a heating element"};

// Of what is driven with it, not of a contact, whose rating is a limit. A magnet that a thermocouple holds is
// a coil of some millivolts, and a spark needs kilovolts.
constexpr Usual rated_voltage = {{1, 1 * kilo}, "what drives a heater or a winding"};
constexpr Usual winding_power = {{0.1, 100 * kilo}, "a winding"};
constexpr Usual verified_below = {{0.5, 1 * kilo}, "what a detector shows"}; // too high is another rule's

// The values that other prefixes would give, as far as `fits` accepts them: "10 kΩ or 10 MΩ".
template <class Fits>
std::string other_prefixes(const Quantity& value, Fits fits) {
  std::string found;
  for (int power = -9; power <= 9; power += 3) {
    const double scale = std::pow(10.0, power);
    if (power == 0 || !fits(scale)) continue;
    if (!found.empty()) found += " or ";
    found += describe(value.si * scale, value.dimension);
  }
  return found;
}

void report_unusual(Sink& sink, const Value<Quantity>& value, const Usual& usual) {
  const std::string meant =
      other_prefixes(*value, [&](double scale) { return usual.range.contains(value->si * scale); });
  if (meant.empty()) return; // far from usual, but not for its prefix
  sink.report(value.node, fmt::format("{} is unusual for {} ({} to {}); did you mean {}?",
                                      describe(value->si, value->dimension), usual.of,
                                      describe(usual.range.low, value->dimension),
                                      describe(usual.range.high, value->dimension), meant));
}

void check_value(Sink& sink, const Value<Quantity>& value, const Usual* usual) {
  if (value && usual != nullptr && value->si > 0 && !usual->range.contains(value->si))
    report_unusual(sink, value, *usual);
}

// A contact that closes, without a resistor in it as far as is stated. Others, as electrodes, may have some
// kΩ.
const Usual& usual_closed(const Resolved_component* component) {
  const bool bare = component != nullptr && component->known_kind &&
                    (component->is(Component_kind::switch_) || component->is(Component_kind::fuse) ||
                     component->is(Component_kind::thermocouple)) &&
                    !component->get(&Component_type::series_resistance) &&
                    !may_have(*component, "series_resistance", component->own->series_resistance);
  return bare ? bare_contact : closed_path;
}

void check_model(Sink& sink, const Resistance_model& model, const Resolved_component& component) {
  const Usual* usual = usual_component(component);
  switch (*model.kind) {
  case Model_kind::open:
    check_value(sink, model.above, conducts_when_open(component) ? &bridged_path : &open_path);
    return;
  case Model_kind::closed: check_value(sink, model.below, &usual_closed(&component)); return;
  case Model_kind::power:
    if (component.is(Component_kind::heater)) check_value(sink, model.power, &heating_power);
    return;
  default: break;
  }
  check_value(sink, model.resistance, usual_at(component, model.at ? kelvin_interval(*model.at) : room));
  check_value(sink, model.r0, usual);
  for (const Terminal_pair& pair : model.pairs) check_value(sink, pair.resistance, usual);
  for (const Table_row& row : model.rows) {
    if (!row.at) continue;
    for (const Value<Quantity>* value : {&row.nominal, &row.min, &row.max})
      check_value(sink, *value, usual_at(component, {row.at->si, row.at->si}));
  }
}

// The band of a test against the component's own model, where both speak of one temperature.
void check_against_model(const Subject& subject, Sink& sink, const Test& test,
                         const Resolved_component& component, const In_document<Resistance_model>& model) {
  const Expectation& expect = test.expect;
  const auto& band = expected(subject, test);
  const Interval at = expect.at ? kelvin_interval(*expect.at) : room;
  const auto& m = measured(subject, test); // of a part with more than two terminals, what the pair has
  const auto healthy = model_interval(m ? *m->model : *model, at);
  if (!band || !healthy || !(band->low > 0) || band->overlaps(*healthy)) return;
  const Value<Quantity>& value = expect.nominal ? expect.nominal : expect.min;
  const std::string meant = other_prefixes(*value, [&](double scale) {
    return Interval{band->low * scale, band->high * scale}.overlaps(*healthy);
  });
  if (meant.empty()) return;
  sink.report(value.node, fmt::format("{} here, but the model of {} gives {} at {}; did you mean {}?",
                                      ohm(*band), component.id, ohm(*healthy), celsius(at), meant));
  sink.relate(*model.document, m ? m->said : model->node, "the model");
}

// From probe to probe, what else its circuit holds conducts on too; nothing does to earth.
bool is_bridged(const Resolved& resolved, const Test& test) {
  const Resolved_component* component = resolved.component_of(test);
  const auto earthed = [&](const Value<Contact>& probe) { return probe && is_earthed(resolved, probe); };
  if (component == nullptr || std::any_of(test.probes.begin(), test.probes.end(), earthed)) return false;
  return conducts_when_open(*component) || !circuits_of(resolved, *component).empty();
}

// What is read there goes down to nothing, at the end of the track.
bool at_wiper(const Resolved_component& component, const Test& test) {
  const auto& terminals = component.placed->terminals;
  return std::any_of(terminals.begin(), terminals.end(), [&](const auto& terminal) {
    const auto is_probe = [&](const Value<Contact>& probe) { return probe && *probe == *terminal.value; };
    return terminal.value && is_wiper(terminal.id) &&
           std::any_of(test.probes.begin(), test.probes.end(), is_probe);
  });
}

void check_expectation(const Subject& subject, Sink& sink, const Test& test) {
  const Expectation& expect = test.expect;
  if (!expect || !expect.kind) return;
  const Resolved_component* component = subject.resolved.component_of(test);
  switch (*expect.kind) {
  case Expectation_kind::open:
    check_value(sink, expect.above, is_bridged(subject.resolved, test) ? &bridged_path : &open_path);
    return;
  case Expectation_kind::rises_to_open: check_value(sink, expect.above, &risen); return;
  case Expectation_kind::closed:
    check_value(sink, expect.below,
                component != nullptr && on_own_contacts(test, *component) &&
                        circuits_of(subject.resolved, *component).empty()
                    ? &usual_closed(component)
                    : &closed_path);
    return;
  case Expectation_kind::not_short: check_value(sink, expect.above, &no_short); return;
  case Expectation_kind::band: break;
  default: return;
  }
  if (test.side && *test.side == Side::harness) return; // its wires, which are no such component
  if (component == nullptr || !component->known_kind || !on_own_contacts(test, *component) ||
      may_read_wires_alone(*component, test))
    return;
  const Usual* usual = usual_component(*component);
  if (component->is(Component_kind::potentiometer) && at_wiper(*component, test)) {
    for (const Value<Quantity>* value : {&expect.nominal, &expect.min, &expect.max})
      if (*value && (*value)->si > usual->range.high) check_value(sink, *value, usual);
    return;
  }
  if (const auto model = component->get(&Component_type::model)) {
    check_against_model(subject, sink, test, *component, model);
  } else {
    for (const Value<Quantity>* value : {&expect.nominal, &expect.min, &expect.max})
      check_value(sink, *value, usual_at(*component, expect.at ? kelvin_interval(*expect.at) : room));
  }
}

void check_kelvin(const Subject& subject, Sink& sink) {
  for (const auto& [use, problem] : spellings_of(subject))
    if (may_be_kelvin(subject.document, *use))
      sink.report(
          use->node,
          fmt::format("{} is read as {}, for a K right behind its number is kilo where ohms may stand; "
                      "write a space before it if kelvin are meant, else \"{}\"",
                      subject.document.written(use->node), problem.suggestion, problem.suggestion));
}

void check(const Subject& subject, Sink& sink) {
  check_kelvin(subject, sink);
  for (const Resolved_component& component : subject.resolved.components) {
    const Component_type& own = *component.own;
    if (!own.kind) continue;
    if (own.model && own.model->kind) check_model(sink, *own.model, component);
    check_value(sink, own.suppressor, &suppressor);
    check_value(sink, own.bleeder, &bleeder);
    check_value(sink, own.dark, &dark);
    check_value(sink, own.light, &light);
    const auto volt = component.get(&Component_type::rated_voltage);
    const bool for_ac = volt && (*volt)->form == Supply_form::ac;
    check_value(sink, own.capacitance, for_ac ? &ac_capacitance : &capacitance);
    check_value(sink, own.rating, &fuse_rating);
    if (component.is(Component_kind::heater)) check_value(sink, own.rated_power, &heating_power);
    if (component.is(Component_kind::winding)) check_value(sink, own.rated_power, &winding_power);
    if (component.is(Component_kind::heater) || component.is(Component_kind::winding))
      check_value(sink, own.rated_voltage, &rated_voltage);
  }
  if (const Profile* profile = subject.profile())
    for (const Hazard& hazard : profile->safety.hazards)
      if (hazard.verify_below && hazard.verify_below->si < verified_below.range.low)
        check_value(sink, hazard.verify_below, &verified_below);
  each_test(subject, [&](Text, const Test& test) { check_expectation(subject, sink, test); });
}

}

extern const Rule prefix_suspicious = {
    .family = Family::unit,
    .severity = Severity::warning,
    .summary = "A value lies far from what is usual, and another prefix would bring it there.",
    .check = check,
};

}
