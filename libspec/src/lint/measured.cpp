#include "lint/measured.h"

#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// The two contacts of a component that has exactly two.
std::optional<std::pair<Contact, Contact>> two_contacts(const Resolved_component& component) {
  const auto contacts = component.contacts();
  if (contacts.size() != 2) return std::nullopt;
  return std::pair{*contacts[0], *contacts[1]};
}

// What else lies on the two contacts of a component: nothing, parts that may make a loop past it, or a part
// on both, whose reading is the one in parallel.
enum class Beside : std::uint8_t { nothing, perhaps, parallel };

Beside what_lies_beside(const Resolved& resolved, const Resolved_component& component, const Contact& a,
                        const Contact& b) {
  const auto on_a = joined_contacts(resolved, a), on_b = joined_contacts(resolved, b);
  bool any_on_a = false, any_on_b = false;
  for (const Resolved_component& other : resolved.components) {
    if (&other == &component) continue;
    const auto contacts = other.contacts();
    const auto touches = [&](const std::vector<Contact>& joined) {
      return std::any_of(contacts.begin(), contacts.end(), [&](const Value<Contact>& own) {
        return std::find(joined.begin(), joined.end(), *own) != joined.end();
      });
    };
    const bool other_on_a = touches(on_a), other_on_b = touches(on_b);
    if (other_on_a && other_on_b) return Beside::parallel;
    any_on_a = any_on_a || other_on_a;
    any_on_b = any_on_b || other_on_b;
  }
  return any_on_a && any_on_b ? Beside::perhaps : Beside::nothing;
}

// The component is an element of a circuit, or a circuit lies between its contacts.
bool in_a_circuit(const Resolved& resolved, const Resolved_component& component, const Contact& a,
                  const Contact& b) {
  const Profile* profile = resolved.document->profile();
  for (const auto& entry : profile->circuits) {
    for (const Element& element : entry.value.elements)
      if (element.component && *element.component == component.id) return true;
    for (const Value<Contact>& contact : entry.value.between)
      if (contact && (*contact == a || *contact == b)) return true;
  }
  return false;
}

bool conducts_like_a_resistor(const Resolved_component& component) {
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

}

std::optional<Measured> measured(const Subject& subject, const Test& test) {
  const Expectation& expect = test.expect;
  if (!expect || !expect.kind || *expect.kind != Expectation_kind::band || !test.component)
    return std::nullopt;
  const Resolved_component* component = subject.resolved.component(*test.component);
  if (component == nullptr || !component->own->kind) return std::nullopt;
  const auto model = component->get(&Component_type::model);
  const auto ends = two_contacts(*component);
  if (!model || !model->kind || !ends || test.probes.size() != 2) return std::nullopt;
  const auto& [a, b] = *ends;
  const Value<Contact>&first = test.probes[0], &second = test.probes[1];
  const bool across = first && second && ((*first == a && *second == b) || (*first == b && *second == a));
  const Document& document = subject.document;
  if (stated(document, test.node, "condition")) return std::nullopt;
  if (!across || a == b || !test.side || *test.side == Side::harness) return std::nullopt;
  const Beside beside = what_lies_beside(subject.resolved, *component, a, b);
  if (beside == Beside::parallel || in_a_circuit(subject.resolved, *component, a, b)) return std::nullopt;

  Measured found{component, model, &expect, std::nullopt};
  if (expect.at) found.kelvin = kelvin_interval(*expect.at);
  found.alone = conducts_like_a_resistor(*component) && beside == Beside::nothing &&
                !stated(document, test.node, "disconnect_also");
  found.on_the_part = *test.side == Side::at_component;
  return found;
}

std::optional<Interval> temperature_for(const Measured& m) {
  const Resistance_model& model = *m.model;
  const bool steady = *model.kind == Model_kind::fixed || *model.kind == Model_kind::power;
  if (steady && model.at) {
    const bool spoken_of = m.kelvin && kelvin_interval(*model.at).contains(*m.kelvin);
    return spoken_of ? m.kelvin : std::nullopt;
  }
  if (steady && !m.kelvin) return Interval{zero_celsius + 20, zero_celsius + 20};
  return m.kelvin;
}

bool is_plain_coil(const Resolved_component& component) {
  const auto drive = component.get(&Component_type::drive);
  const auto suppression = component.get(&Component_type::suppression);
  if (!component.is(Component_kind::coil) || component.get(&Component_type::series_resistance)) return false;
  if (!drive || (**drive != Drive::dc && **drive != Drive::ac)) return false;
  return suppression && (**suppression == Suppression::none || **suppression == Suppression::varistor ||
                         **suppression == Suppression::rc);
}

}
