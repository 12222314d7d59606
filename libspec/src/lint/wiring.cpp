#include "lint/wiring.h"

#include <algorithm>
#include <limits>

#include "lint/contacts.h"
#include "lint/measured.h"
#include "lint/read.h"
#include "lint/readings.h"

namespace ohmlore::rules {
namespace {

constexpr Interval unknown = {0, std::numeric_limits<double>::infinity()};

// The components of a circuit stand with their own contacts, so that the joints show.
bool is_brought_out(const Resolved& resolved, const Circuit& circuit) {
  return std::all_of(circuit.elements.begin(), circuit.elements.end(), [&](const Element& element) {
    const Resolved_component* part = element.component ? resolved.component(*element.component) : nullptr;
    if (part == nullptr || part->placed->between.size() != 2) return false;
    const bool whole = same_ends(part->placed->between, circuit.between);
    return circuit.elements.size() == 1 || !circuit.arrangement || !whole ||
           *circuit.arrangement == Arrangement::parallel;
  });
}

// Calls `f(component)`, or `f(element)` for what is no component, for each element of a circuit and of those
// in it.
template <class F>
bool all_elements(const Resolved& resolved, const Circuit& circuit, F f) {
  const auto circuits = circuits_in(resolved, circuit);
  return std::all_of(circuits.begin(), circuits.end(), [&](const Circuit* each) {
    return std::all_of(each->elements.begin(), each->elements.end(), [&](const Element& element) {
      if (!element.kind || *element.kind == Element_kind::diode) return false;
      // A nominal alone may be off by more than its last digit.
      const bool read = element.tolerance || !element.resistance;
      if (!element.component) return read; // a resistor, or a circuit that is looked at in its turn
      const Resolved_component* part = resolved.component(*element.component);
      return part != nullptr && f(*part);
    });
  });
}

bool is_linear(const Resolved_component& component) {
  const auto resistive = component.get(&Component_type::purely_resistive);
  return resistive && **resistive && !component.get(&Component_type::protector);
}

bool is_steady(const Resolved_component& component) {
  const auto model = component.get(&Component_type::model);
  return model && model->kind && *model->kind == Model_kind::fixed && !model->at && model->tolerance &&
         fully_read(*model.document, *model);
}

Interval ohm_of(const Resolved_component& component, const Value<Range>& at) {
  const auto model = component.get(&Component_type::model);
  if (!component.own->kind || !model || !model->kind || model->pairs || *model->kind == Model_kind::power ||
      !conducts_like_a_resistor(component))
    return unknown;
  const Taken taken = *model->kind == Model_kind::table ? Taken::literally : Taken::generously;
  std::optional<Interval> kelvin;
  if (at) kelvin = kelvin_interval(*at, taken);
  if (*model->kind == Model_kind::fixed) {
    if (model->at && (!kelvin || !kelvin_interval(*model->at, Taken::generously).contains(*kelvin)))
      return unknown;
    if (!kelvin) kelvin = {zero_celsius, zero_celsius}; // whatever it is
  }
  if (!kelvin) return unknown;
  const Resistance_model of_metal = with_metal(*model, component);
  if (!speaks_of(of_metal, *kelvin)) return unknown;
  const auto ohm = model_interval(of_metal, *kelvin, Taken::generously);
  return ohm ? Interval{std::max(ohm->low, 0.0), ohm->high} : unknown;
}

Interval ohm_of(const Resolved& resolved, const Circuit& circuit, const Value<Range>& at, int depth) {
  constexpr int deepest = 8; // a circuit that is an element of itself is for circuit-loops
  if (!circuit.arrangement || circuit.elements.size() == 0 || depth > deepest) return unknown;
  std::vector<Between> side_by_side;
  Interval in_series = {0, 0};
  for (const Element& element : circuit.elements) {
    Interval ohm = unknown;
    if (element.component) {
      if (const auto* component = resolved.component(*element.component)) ohm = ohm_of(*component, at);
    } else if (element.circuit) {
      const auto* inner = resolved.document->profile()->circuits.find(*element.circuit);
      if (inner != nullptr) ohm = ohm_of(resolved, inner->value, at, depth + 1);
    } else if (element.resistance) {
      ohm = toleranced_interval(*element.resistance, element.tolerance, Taken::generously);
    }
    side_by_side.push_back({0, 1, ohm});
    in_series = in_series + ohm;
  }
  return *circuit.arrangement == Arrangement::series ? in_series : network_resistance(side_by_side, 2, 0, 1);
}

}

Wiring wiring_of(const Resolved& resolved) {
  Wiring wiring{{Contact{}}, {false}, {}};
  const Profile& profile = *resolved.document->profile();
  const auto leaves = [&](const Contact& contact) {
    const auto* c = resolved.circuit_class(contact);
    if (c != nullptr && **c == Circuit_class::protective_earth) return true;
    return std::any_of(profile.safety.supplies.begin(), profile.safety.supplies.end(), [&](const Supply& s) {
      return std::any_of(s.enters_at.begin(), s.enters_at.end(),
                         [&](const Value<Contact>& at) { return at && *at == contact; });
    });
  };
  const auto node = [&](const Contact& contact) {
    const auto found = std::find(wiring.contacts.begin() + 1, wiring.contacts.end(), contact);
    const auto position = static_cast<std::size_t>(found - wiring.contacts.begin());
    if (found == wiring.contacts.end()) {
      wiring.contacts.push_back(contact);
      wiring.leaves_anyway.push_back(leaves(contact));
    }
    return position;
  };
  std::vector<Text> inside; // of circuits, without contacts of their own
  for (const auto& circuit : profile.circuits) {
    const auto& ends = circuit.value.between;
    if (is_brought_out(resolved, circuit.value)) continue;
    for (const Text component : components_in(resolved, circuit.value)) inside.push_back(component);
    if (ends.size() == 2 && ends[0] && ends[1])
      wiring.branches.push_back({node(*ends[0]), node(*ends[1]), nullptr, &circuit});
  }
  for (const Resolved_component& component : resolved.components) {
    if (std::find(inside.begin(), inside.end(), component.id) != inside.end()) continue;
    const auto contacts = component.contacts;
    // Of a part that not every model has nobody knows whether it lies there.
    const bool known = contacts.size() == 2 && !component.placed->when;
    if (contacts.size() == 1) wiring.branches.push_back({node(*contacts[0]), 0, &component, nullptr});
    for (std::size_t i = 0; i < contacts.size(); ++i)
      for (std::size_t j = 0; j < i; ++j)
        wiring.branches.push_back(
            {node(*contacts[j]), node(*contacts[i]), known ? &component : nullptr, nullptr});
  }
  return wiring;
}

std::vector<Branch> on_the_way(const Wiring& wiring, Text plug, const Contact& from, const Contact& to) {
  const auto node = [&](const Contact& contact) {
    const auto found = std::find(wiring.contacts.begin() + 1, wiring.contacts.end(), contact);
    return static_cast<std::size_t>(found - wiring.contacts.begin());
  };
  const std::size_t a = node(from), b = node(to);
  // Mostly the part has a contact for itself, and nothing else can carry the current.
  for (const std::size_t end : {a, b}) {
    if (end >= wiring.contacts.size() || wiring.leaves_anyway[end] || wiring.contacts[end].connector != plug)
      continue;
    const Branch* only = nullptr;
    bool several = false;
    for (const Branch& branch : wiring.branches)
      if (branch.a == end || branch.b == end) {
        several = several || only != nullptr;
        only = &branch;
      }
    if (several || only == nullptr) continue;
    const std::size_t other = only->a == end ? only->b : only->a;
    if (other == (end == a ? b : a)) return {*only};
  }
  std::vector<Branch> all = wiring.branches;
  for (std::size_t i = 1; i < wiring.contacts.size(); ++i)
    if (wiring.leaves_anyway[i] || wiring.contacts[i].connector != plug)
      all.push_back({i, 0, nullptr, nullptr});
  std::vector<bool> reached(wiring.contacts.size() + 1);
  reached[a] = true;
  for (bool changed = true; changed;) {
    changed = false;
    for (const Branch& branch : all)
      if (reached[branch.a] != reached[branch.b]) reached[branch.a] = reached[branch.b] = changed = true;
  }
  std::vector<Branch> way;
  if (!reached[b]) return way;
  for (const Branch& branch : all)
    if (reached[branch.a] && branch.a != branch.b) way.push_back(branch);
  for (bool changed = true; changed;) {
    std::vector<int> ends(wiring.contacts.size());
    for (const Branch& branch : way) ++ends[branch.a], ++ends[branch.b];
    const auto dead = [&](const Branch& branch) {
      const auto alone = [&](std::size_t end) { return ends[end] == 1 && end != a && end != b; };
      return alone(branch.a) || alone(branch.b);
    };
    const auto rest = std::remove_if(way.begin(), way.end(), dead);
    changed = rest != way.end();
    way.erase(rest, way.end());
  }
  return way;
}

Interval ohm_of(const Resolved& resolved, const Branch& branch, const Value<Range>& at) {
  if (branch.circuit != nullptr) return ohm_of(resolved, branch.circuit->value, at, 0);
  // A part with one known contact ends nobody knows where.
  if (branch.component == nullptr || branch.component->contacts.size() != 2) return unknown;
  return ohm_of(*branch.component, at);
}

bool is_linear(const Resolved& resolved, const Branch& branch) {
  if (branch.circuit != nullptr)
    return all_elements(resolved, branch.circuit->value,
                        [](const Resolved_component& part) { return is_linear(part); });
  return branch.component != nullptr && branch.component->contacts.size() == 2 &&
         is_linear(*branch.component);
}

bool is_steady(const Resolved& resolved, const Branch& branch) {
  if (branch.circuit != nullptr)
    return all_elements(resolved, branch.circuit->value,
                        [](const Resolved_component& part) { return is_steady(part); });
  return branch.component != nullptr && is_steady(*branch.component);
}

bool reads_the_wiring(const Document& document, const Test& test) {
  return test.side && *test.side == Side::at_board_plug && test.unplug && test.probes.size() == 2 &&
         test.probes[0] && test.probes[1] && *test.probes[0] != *test.probes[1] &&
         test.probes[0]->connector == *test.unplug && test.probes[1]->connector == *test.unplug &&
         !test.condition && !test.positive && !test.disconnect_also && !test.before &&
         fully_read(document, test);
}

}
