#include "lint/measured.h"

#include <algorithm>

#include "lint/contacts.h"
#include "lint/readings.h"
#include "lint/rows.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// What else lies on the contacts of a component: nothing, parts that may make a loop past it, or a part on
// both that are probed, whose reading is the one in parallel.
enum class Beside : std::uint8_t { nothing, perhaps, parallel };

// Calls `f(other)` for each other component on a contact or on one joined with it that may be there together,
// until it says true. A withdrawn plug has left the board and what that joins.
template <class F>
bool any_other(const Resolved& resolved, const Resolved_component& component,
               const Never_together& never_beside, const Value<Contact>& contact, Text withdrawn, F f) {
  const auto any_of = [&](std::span<const Lying> lying) {
    return std::any_of(lying.begin(), lying.end(), [&](const Lying& thing) {
      return thing.component != nullptr && thing.component != &component &&
             !never_beside(thing.component->placed->when) && f(*thing.component);
    });
  };
  const auto* set = contact->connector == withdrawn ? nullptr : joined_set(resolved, *contact);
  if (set == nullptr) return any_of(resolved.lying_on(contact));
  return std::any_of(set->begin(), set->end(),
                     [&](const Contact& joined) { return any_of(resolved.lying.at(joined)); });
}

Beside what_lies_beside(const Resolved& resolved, const Resolved_component& component,
                        const Value<Contact>& a, const Value<Contact>& b, Text withdrawn) {
  const auto any = [](const Resolved_component&) { return true; };
  const Never_together never_beside(component.placed->when);
  std::size_t touched = 0;
  for (const Value<Contact>& contact : component.contacts) {
    if (*contact == *a &&
        any_other(resolved, component, never_beside, a, withdrawn, [&](const Resolved_component& other) {
          return any_other(resolved, component, never_beside, b, withdrawn,
                           [&](const Resolved_component& on_b) { return &on_b == &other; });
        }))
      return Beside::parallel;
    touched += any_other(resolved, component, never_beside, contact, withdrawn, any);
  }
  return touched > 1 ? Beside::perhaps : Beside::nothing;
}

// The component is an element of a circuit, or circuits lie on both of its contacts: on one, a common say,
// they make at most a loop past it.
Beside circuits_beside(const Resolved& resolved, const Resolved_component& component, const Contact& a,
                       const Contact& b) {
  bool on_a = false, on_b = false;
  for (const auto& entry : resolved.document->profile()->circuits) {
    for (const Element& element : entry.value.elements)
      if (element.component && *element.component == component.id) return Beside::parallel;
    for (const Value<Contact>& contact : entry.value.between) {
      on_a = on_a || (contact && are_joined(resolved, *contact, a));
      on_b = on_b || (contact && are_joined(resolved, *contact, b));
    }
  }
  return on_a && on_b ? Beside::parallel : on_a || on_b ? Beside::perhaps : Beside::nothing;
}

}

static std::optional<Band_across> find_band_across(const Subject& subject, const Test& test) {
  const Expectation& expect = test.expect;
  if (!expect || !expect.kind || *expect.kind != Expectation_kind::band || !test.component)
    return std::nullopt;
  const Resolved_component* component = subject.resolved.component_of(test);
  if (component == nullptr || !component->known_kind || !has_both_ends(test.probes)) return std::nullopt;
  const Value<Contact>&a = test.probes[0], &b = test.probes[1];
  const Document& document = subject.document;
  if (stated(document, test, "condition", test.condition)) return std::nullopt;
  if (!test.side || *test.side == Side::harness || *a == *b || !on_own_contacts(test, *component))
    return std::nullopt;
  Beside beside = what_lies_beside(subject.resolved, *component, a, b, {});
  // Joined by the board alone, which the plug has left; a doubt remains, so that no error comes of it.
  if (beside == Beside::parallel && test.unplug &&
      what_lies_beside(subject.resolved, *component, a, b, *test.unplug) != Beside::parallel)
    beside = Beside::perhaps;
  beside = std::max(beside, circuits_beside(subject.resolved, *component, *a, *b));
  if (beside == Beside::parallel) return std::nullopt;

  Band_across found{.component = component, .expect = &expect, .kelvin = {}};
  if (expect.at) found.kelvin = kelvin_interval(*expect.at);
  const bool else_nothing = conducts_like_a_resistor(*component) && beside == Beside::nothing &&
                            !stated(document, test, "disconnect_also", test.disconnect_also) &&
                            !stated(document, test, "before", test.before);
  const bool unplugged = stated(document, test, "unplug", test.unplug);
  found.alone = else_nothing && unplugged;
  found.with_board = else_nothing && !unplugged;
  found.on_the_part = *test.side == Side::at_component;
  found.noted = stated(document, test, "note", test.note);
  return found;
}

bool across_the_same(const Test& a, const Test& b) {
  return *a.component == *b.component && same_ends(a.probes, b.probes);
}

const std::optional<Band_across>& band_across(const Subject& subject, const Test& test) {
  auto& across = worked_out(subject, test).across;
  if (!across) across = find_band_across(subject, test);
  return *across;
}

bool may_read_wires_alone(const Resolved_component& component, const Test& test) {
  if (!component.is(Component_kind::rtd)) return false;
  const auto wires = component.get(&Component_type::wires);
  if (component.contacts.size() < 3 && !(wires ? **wires > 2 : component.lacks_part())) return false;
  if (test.expect.kind && *test.expect.kind == Expectation_kind::closed) return true;
  const auto band = expected_interval(test.expect, Taken::generously);
  return band && band->low <= most_of_wires;
}

// A resistance thermometer of three or four wires reads the same between any two of them, but for those on
// one end of it. Which these are nothing states.
static bool reads_past_wires(const Resolved_component& component, const Test& test) {
  const auto wires = component.get(&Component_type::wires);
  return component.is(Component_kind::rtd) && wires && **wires > 2 &&
         static_cast<std::size_t>(**wires) == component.contacts.size() &&
         !may_read_wires_alone(component, test);
}

static std::optional<Measured> find_measured(const Subject& subject, const Test& test) {
  // What is quickly known first: most tests are of parts without a model.
  const Resolved_component* named = test.expect ? subject.resolved.component_of(test) : nullptr;
  if (named == nullptr) return std::nullopt;
  const Resolved_component& component = *named;
  const auto model = component.get(&Component_type::model);
  if (!model || !model->kind) return std::nullopt;
  const auto& across = band_across(subject, test);
  if (!across) return std::nullopt;
  Measured found{*across, with_metal(*model, component), model.document, model->node};
  if (component.contacts.size() == 2 && !model->pairs)
    return may_read_wires_alone(component, test) ? std::nullopt : std::optional(std::move(found));
  if (reads_past_wires(component, test)) {
    found.alone = found.with_board = false; // three wires may be those of two elements with a common
    return found;
  }
  const Terminal_pair* pair = pair_between(component, *model, *test.probes[0], *test.probes[1]);
  if (pair == nullptr) return std::nullopt;
  found.model.change().resistance = pair->resistance;
  found.said = pair->node;
  return found;
}

const std::optional<Measured>& measured(const Subject& subject, const Test& test) {
  auto& known = worked_out(subject, test).measured;
  if (!known) known = find_measured(subject, test);
  return *known;
}

std::optional<Interval> temperature_for(const Measured& m) {
  const Resistance_model& model = *m.model;
  const bool steady = *model.kind == Model_kind::fixed || *model.kind == Model_kind::power;
  if (steady && model.at) {
    const bool spoken_of = m.kelvin && kelvin_interval(*model.at).contains(*m.kelvin);
    return spoken_of ? m.kelvin : std::nullopt;
  }
  if (steady && !m.kelvin) return Interval{zero_celsius + 20, zero_celsius + 20};
  return m.kelvin && speaks_of(model, *m.kelvin) ? m.kelvin : std::nullopt;
}

Interval temperatures_asked(const Resistance_model& model, const Expectation& expect, Interval kelvin) {
  const bool of_fahrenheit = is_rounded_from_fahrenheit(model);
  double most = 0;
  bool at_a_row = false;
  for (const Table_row& row : model.rows) {
    if (!row.at) continue;
    const double off = of_fahrenheit ? off_fahrenheit(*row.at) : 0;
    most = std::max(most, off);
    at_a_row = at_a_row || (kelvin.low == row.at->si && kelvin.high == row.at->si && off == 0);
  }
  if (at_a_row || !expect.at) return kelvin;
  return kelvin_interval(*expect.at, Taken::generously) + Interval{-most, most};
}

// With a part that was not found, or a key that nobody knows, it may, or may have whatever else that says.
static bool may_have_resistance_in_series(const Resolved_component& component) {
  return component.get(&Component_type::series_resistance) ||
         may_have(component, "series_resistance", component.own->series_resistance);
}

static bool is_coil_without_series_part(const Resolved_component& component) {
  return component.is(Component_kind::coil) && !may_have_resistance_in_series(component) &&
         (component.has(&Component_type::drive, Drive::dc) ||
          component.has(&Component_type::drive, Drive::ac));
}

bool is_plain_coil(const Resolved_component& component) {
  const auto suppression = component.get(&Component_type::suppression);
  return is_coil_without_series_part(component) && suppression &&
         (**suppression == Suppression::none || **suppression == Suppression::varistor ||
          **suppression == Suppression::rc);
}

bool is_plain_as_fed(const Resolved_component& component) {
  return is_plain_coil(component) || (is_coil_without_series_part(component) && has_diode_across(component));
}

bool is_declared_resistive(const Resolved_component& component) {
  return component.has(&Component_type::purely_resistive, true) && !component.get(&Component_type::protector);
}

bool conducts_like_a_resistor(const Resolved_component& component) {
  // Its reading depends on where the wiper stands.
  if (component.is(Component_kind::potentiometer)) return false;
  if (may_have_resistance_in_series(component)) return false; // its model may be without that, or with
  if (const auto declared = component.get(&Component_type::purely_resistive)) return **declared;
  switch (component.kind()) {
  case Component_kind::ntc:
  case Component_kind::rtd:
  case Component_kind::resistor:
  case Component_kind::coding: return true;
  case Component_kind::coil: return is_plain_coil(component);
  case Component_kind::winding: return !component.get(&Component_type::protector);
  default: return false;
  }
}

std::optional<Interval> metal_k(const Resistance_model& model) {
  if (!model.k && model.metal && *model.metal != Metal::copper && *model.metal != Metal::aluminium)
    return std::nullopt;
  return copper_k_interval(model);
}

std::optional<In_document<Resistance_model>> relied_on(const Subject& subject, const Test& test) {
  if (stated(subject.document, test, "expect", test.expect) || !test.component) return std::nullopt;
  const Resolved_component* component = subject.resolved.component_of(test);
  if (component == nullptr) return std::nullopt;
  const auto model = component->get(&Component_type::model);
  return model && model->kind ? std::optional(model) : std::nullopt;
}

Adapted_model with_metal(const Resistance_model& model, const Resolved_component& component) {
  Adapted_model adapted = model;
  const auto metal = component.get(&Component_type::metal);
  if (model.kind && *model.kind == Model_kind::copper && !model.metal && metal)
    adapted.change().metal = *metal;
  return adapted;
}

bool speaks_of(const Resistance_model& model, Interval kelvin) {
  return *model.kind != Model_kind::copper || metal_k(model) ||
         (model.at && kelvin_interval(*model.at, Taken::generously).contains(kelvin));
}

bool is_metal_alone(const Resolved_component& component) {
  if (may_have_resistance_in_series(component)) return false;
  if (const auto declared = component.get(&Component_type::purely_resistive)) return **declared;
  if (component.is(Component_kind::winding)) return !component.get(&Component_type::protector);
  return is_plain_coil(component);
}

}
