#include <algorithm>

#include "lint/contacts.h"
#include "lint/measured.h"
#include "lint/read.h"
#include "lint/rule.h"
#include "lint/stated_model.h"
#include "lint/usual.h"
#include "lint/wiring.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// A band without a temperature is that of a winding as it may be met.
std::optional<Interval> temperature_of(const Measured& m) {
  const auto at = temperature_for(m);
  if (at || m.kelvin || *m.model->kind != Model_kind::copper ||
      !speaks_of(*m.model, temperatures_of_windings))
    return at;
  return temperatures_of_windings;
}

// Another prefix would bring one to the other: prefix-suspicious says so.
bool prefix_slipped(Interval band, Interval healthy) {
  for (const double scale : {1e-6, 1e-3, 1e3, 1e6})
    if (Interval{band.low * scale, band.high * scale}.overlaps(healthy)) return true;
  return false;
}

// A current has other ways past the component: expectation-outside-network looks at them together. A
// component with more than two contacts is itself several, from each to its middle.
bool is_one_of_several(const Subject& subject, const Test& test) {
  if (!reads_the_wiring(subject.document, test)) return false;
  const auto way = on_the_way(subject, test);
  const auto& nodes = wiring_of(subject).nodes;
  const std::size_t from = node_of(subject, test.probes[0]), to = node_of(subject, test.probes[1]);
  return way.size() > 1 && std::any_of(way.begin(), way.end(), [&](const Branch& branch) {
           // Of two parts that no model has both of one lies there.
           const Resolved_component* part = nodes[branch.b].middle_of;
           return !branch.joins(from, to) && (part == nullptr || part->id != *test.component);
         });
}

// More than any thermistor changes from room temperature to the coldest or warmest day on which it is tested.
// Common practice, no source.
constexpr double change_with_weather = 100;

// Nothing else that conducts lies on one of the two contacts.
bool has_a_contact_of_its_own(const Subject& subject, const Test& test) {
  return test.unplug && std::any_of(test.probes.begin(), test.probes.end(), [&](const Value<Contact>& probe) {
           return subject.resolved.lying_on(probe).size() == 1;
         });
}

// What it has between its two contacts is no matter of where a current goes, nor of a polarity.
bool conducts(const Resolved_component& component) {
  if (component.contacts.size() != 2) return false;
  if (!component.is(Component_kind::heater) && !component.is(Component_kind::ptc))
    return conducts_like_a_resistor(component);
  const auto declared = component.get(&Component_type::purely_resistive);
  return !declared || **declared;
}

// A part that conducts is to read open, or one that has resistance closed. What is the same at every
// temperature expectation-outside-network sees at a plug.
void check_state(const Subject& subject, Sink& sink, const Test& test) {
  const Expectation& expect = test.expect;
  const Resolved_component* component = subject.resolved.component_of(test);
  if (!subject.document.complete() || component == nullptr || !component->known_kind ||
      component->lacks_part() || !conducts(*component) || !on_own_contacts(test, *component) ||
      may_read_wires_alone(*component, test) || !circuits_of(subject.resolved, *component).empty() ||
      !test.side || *test.side == Side::harness || test.condition || test.disconnect_also || test.before ||
      test.note)
    return;
  constexpr Interval room = {zero_celsius + 20, zero_celsius + 25};
  const auto model = component->get(&Component_type::model);
  const Usual* usual = usual_component(*component);
  if (model ? !model->kind || (*model->kind == Model_kind::fixed && *test.side == Side::at_board_plug)
            : usual == nullptr)
    return;
  const auto healthy = model ? model_interval(*model, room, Taken::generously) : usual->range;
  if (!healthy) return;
  // What is usual is so at every temperature, but for thermistors.
  const bool changes = model || component->is(Component_kind::ntc) || component->is(Component_kind::ptc);
  const double change = changes ? change_with_weather : 1;
  const bool too_high =
      (*expect.kind == Expectation_kind::open || *expect.kind == Expectation_kind::not_short) &&
      expect.above && expect.above->si > healthy->high * change;
  const bool too_low = *expect.kind == Expectation_kind::closed && expect.below &&
                       expect.below->si * change <= healthy->low && has_a_contact_of_its_own(subject, test);
  if (!too_high && !too_low) return;
  const std::string but = model
                              ? fmt::format("has {} at 20 °C to 25 °C: no healthy part passes",
                                            ohm(model_interval(*model, room).value_or(*healthy)))
                              : fmt::format("{} usually has {}: hardly any passes", usual->of, ohm(*healthy));
  sink.report_as(Severity::warning, test.expect.node,
                 fmt::format("{} is expected to read {} {}, but {}; mend the expectation or the contacts, or "
                             "say in `disconnect_also` what comes off",
                             component->id, too_high ? "at least" : "at most",
                             ohm(too_high ? expect.above->si : expect.below->si), but));
  if (model) sink.relate(*model.document, model->node, "the model");
}

void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text, const Test& test) {
    if (test.expect.kind && *test.expect.kind != Expectation_kind::band)
      return check_state(subject, sink, test);
    const auto& m = measured(subject, test);
    const auto at = m ? temperature_of(*m) : std::nullopt;
    if (!at || *m->model->kind == Model_kind::iec_60751 || *m->model->kind == Model_kind::power) return;
    const Between_rows between = between_rows(*m->component);
    const auto& band = expected(subject, test, Taken::generously);
    const auto literally = model_interval(*m->model, *at, Taken::literally, between);
    if (!band || (literally && band->overlaps(*literally))) return; // as nearly all do
    const auto healthy = model_interval(*m->model, temperatures_asked(*m->model, test.expect, *at),
                                        Taken::generously, between);
    if (!healthy || band->overlaps(*healthy)) return;
    // The harness can only add to a reading.
    const bool too_low = band->high < healthy->low;
    const bool at_all = !m->kelvin && at->width() == 0; // the same at every temperature
    const bool sure = (m->kelvin || at_all) && surely_missed(*m, *band, *healthy) &&
                      subject.document.complete() && fully_read(*m->model_document, *m->model) &&
                      bounds_parts(*m->model, *at) &&
                      !(*m->model->kind == Model_kind::beta && !is_bare_ntc(*m->component));
    if (!sure && (prefix_slipped(*band, *healthy) || is_one_of_several(subject, test))) return;
    const auto [asked_for, allowed] = apart(*expected(subject, test), literally.value_or(*healthy));
    sink.report_as(
        sure ? Severity::error : Severity::warning, test.expect.node,
        fmt::format(
            "{} is wholly {} what the model of {} allows at {} ({}): {}", asked_for,
            too_low ? "below" : "above", m->component->id, at_all ? "any temperature" : celsius(*at), allowed,
            sure
                ? "no healthy part passes; mend the test or the model"
                : "a healthy part hardly passes; mend the test or the model, or state the tolerance, or what "
                  "else the reading goes through"));
    sink.relate(*m->model_document, m->said, "the model");
  });
}

}

extern const Rule expectation_outside_model = {
    .family = Family::band,
    .severity = Severity::error,
    .summary = "A test expects a band that no part within its component's model can read.",
    .check = check,
};

}
