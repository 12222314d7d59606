#include "lint/wiring.h"

#include <algorithm>
#include <numeric>

#include "lint/contacts.h"
#include "lint/measured.h"
#include "lint/read.h"
#include "lint/readings.h"

namespace ohmlore::rules {
namespace {

constexpr Interval unknown = {0, infinity};

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

// To earth or to a supply.
bool leaves_anyway(const Resolved& resolved, const Value<Contact>& contact) {
  if (is_protective_earth(resolved, contact)) return true;
  const auto lying = resolved.lying_on(contact);
  return std::any_of(lying.begin(), lying.end(), [](const Lying& thing) { return thing.supply != nullptr; });
}

// Whether of a circuit and of those in it all components are as `is` says, and all else is linear.
template <class Is>
bool all_elements(const Resolved& resolved, const Circuit& circuit, Is is) {
  const auto& circuits = circuits_in(resolved, circuit);
  return std::all_of(circuits.begin(), circuits.end(), [&](const Circuit* each) {
    return std::all_of(each->elements.begin(), each->elements.end(), [&](const Element& element) {
      if (!element.kind || *element.kind == Element_kind::diode) return false;
      // A nominal alone may be off by more than its last digit.
      const bool read = element.tolerance || !element.resistance;
      if (!element.component) return read; // a resistor, or a circuit that is looked at in its turn
      const Resolved_component* part = resolved.component(*element.component);
      return part != nullptr && is(*part);
    });
  });
}

bool is_steady_part(const Resolved_component& component) {
  const auto model = component.get(&Component_type::model);
  return model && model->kind && *model->kind == Model_kind::fixed && !model->at && model->tolerance &&
         fully_read(*model.document, *model);
}

Interval ohm_of(const Resolved_component& component, const Value<Range>& at) {
  const auto model = component.get(&Component_type::model);
  if (!component.known_kind || !model || !model->kind || model->pairs || *model->kind == Model_kind::power ||
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
  if (!kelvin && *model->kind == Model_kind::copper) kelvin = temperatures_of_windings;
  if (!kelvin) return unknown;
  const Adapted_model of_metal = with_metal(*model, component);
  if (!speaks_of(*of_metal, *kelvin)) return unknown;
  const auto ohm = model_interval(*of_metal, *kelvin, Taken::generously);
  return ohm ? Interval{std::max(ohm->low, 0.0), ohm->high} : unknown;
}

// `left`: so many elements are looked at, so that a circuit in itself ends, and circuits that hold each other
// many times.
Interval ohm_of(const Resolved& resolved, const Circuit& circuit, const Value<Range>& at, int& left) {
  if (!circuit.arrangement || circuit.elements.size() == 0) return unknown;
  std::vector<Between> side_by_side;
  Interval in_series = {0, 0};
  for (const Element& element : circuit.elements) {
    if (left-- <= 0) return unknown;
    Interval ohm = unknown;
    if (element.component) {
      const auto* component = resolved.component(*element.component);
      // Of a part that not every model has nobody knows whether it lies there.
      if (component != nullptr && !component->placed->when) ohm = ohm_of(*component, at);
    } else if (element.circuit) {
      const Circuit* inner = resolved.circuit(*element.circuit);
      if (inner != nullptr) ohm = ohm_of(resolved, *inner, at, left);
    } else if (element.resistance) {
      ohm = toleranced_interval(*element.resistance, element.tolerance, Taken::generously);
    }
    side_by_side.push_back({0, 1, ohm});
    in_series = in_series + ohm;
  }
  return *circuit.arrangement == Arrangement::series ? in_series : network_resistance(side_by_side, 2, 0, 1);
}

}

static void index_branches(Wiring& wiring) {
  wiring.begins.resize(wiring.nodes.size() + 1);
  for (const Branch& branch : wiring.branches)
    for (const std::size_t end : {branch.a, branch.b}) ++wiring.begins[end + 1];
  std::partial_sum(wiring.begins.begin(), wiring.begins.end(), wiring.begins.begin());
  std::vector<std::size_t> next(wiring.begins.begin(), wiring.begins.end() - 1);
  wiring.ends_at.resize(2 * wiring.branches.size());
  for (std::size_t i = 0; i < wiring.branches.size(); ++i)
    for (const std::size_t end : {wiring.branches[i].a, wiring.branches[i].b})
      wiring.ends_at[next[end]++] = i;
}

Wiring wiring_of(const Resolved& resolved) {
  Wiring wiring;
  const Profile& profile = *resolved.document->profile();
  const auto node = [&](const Value<Contact>& contact) -> std::size_t {
    std::uint32_t& known = wiring.of_contacts[resolved.number_of(contact)];
    if (known == 0) {
      known = static_cast<std::uint32_t>(wiring.nodes.size());
      wiring.nodes.push_back({&*contact, nullptr, leaves_anyway(resolved, contact)});
    }
    return known;
  };
  const auto join = [&](const Branch& branch) { wiring.branches.push_back(branch); };
  wiring.branches.reserve(resolved.contacts->size() + profile.circuits.size());
  wiring.nodes.reserve(resolved.contacts->size() + 1);
  wiring.nodes.emplace_back(); // node 0
  wiring.of_contacts.resize(resolved.lying.size());
  std::vector<bool> inside(resolved.components.size()); // of circuits, without contacts of their own
  for (const auto& circuit : profile.circuits) {
    const auto& ends = circuit.value.between;
    if (is_brought_out(resolved, circuit.value)) continue;
    for (const Circuit* each : circuits_in(resolved, circuit.value))
      for (const Element& element : each->elements)
        if (const auto* part = element.component ? resolved.component(*element.component) : nullptr)
          inside[resolved.position_of(*part)] = true;
    if (has_both_ends(ends)) join({node(ends[0]), node(ends[1]), nullptr, &circuit});
  }
  for (std::size_t i = 0; i < resolved.components.size(); ++i) {
    if (inside[i]) continue;
    const Resolved_component& component = resolved.components[i];
    const auto contacts = component.contacts;
    // Of a part that not every model has nobody knows whether it lies there.
    const Resolved_component* known = component.placed->when ? nullptr : &component;
    if (contacts.size() == 1) join({node(contacts[0]), 0, &component, nullptr});
    if (contacts.size() == 2) join({node(contacts[0]), node(contacts[1]), known, nullptr});
    if (contacts.size() <= 2) continue;
    const std::size_t middle = wiring.nodes.size();
    wiring.nodes.push_back({nullptr, &component});
    for (const Value<Contact>& contact : contacts) join({node(contact), middle, nullptr, nullptr});
  }
  index_branches(wiring);
  return wiring;
}

std::vector<Branch> on_the_way(const Wiring& wiring, Text plug, std::size_t a, std::size_t b) {
  if (a == 0 || b == 0) return {}; // nothing has an end there
  const auto leaves = [&](std::size_t node) {
    const Wiring::Node& here = wiring.nodes[node];
    return here.contact != nullptr && (here.leaves_anyway || !same_name(here.contact->connector, plug));
  };
  // What has a contact for itself carries all the current there.
  const auto only_at = [&](std::size_t node) {
    const auto branches = wiring.branches_at(node);
    return branches.size() == 1 && !leaves(node) ? &wiring.branches[branches.front()] : nullptr;
  };
  const Branch *from_a = only_at(a), *from_b = only_at(b);
  // Mostly it is the part between the two, or one of more contacts that has all of them for itself.
  for (const Branch* only : {from_a, from_b})
    if (only != nullptr && only->a + only->b == a + b) return {*only};
  if (from_a != nullptr && from_b != nullptr && from_a->b == from_b->b) {
    const auto around = wiring.branches_at(from_a->b);
    if (wiring.nodes[from_a->b].middle_of != nullptr &&
        std::all_of(around.begin(), around.end(),
                    [&](std::size_t i) { return only_at(wiring.branches[i].a) != nullptr; }))
      return {*std::min(from_a, from_b), *std::max(from_a, from_b)};
  }
  // Branches are numbered as in the wiring; behind them, by node, those to node 0.
  const std::size_t known = wiring.branches.size(), count = wiring.nodes.size();
  const auto branch = [&](std::size_t i) {
    return i < known ? wiring.branches[i] : Branch{i - known, 0, nullptr, nullptr};
  };
  // Calls `f` with each branch at a node.
  const auto each_at = [&](std::size_t node, auto f) {
    for (const std::size_t i : wiring.branches_at(node)) f(i);
    for (std::size_t other = node == 0 ? 1 : node; other < (node == 0 ? count : node + 1); ++other)
      if (leaves(other)) f(known + other);
  };
  std::vector<std::size_t> nodes;
  nodes.reserve(count);
  nodes.push_back(a);
  std::vector<std::size_t> ends(count);                   // branches at a node
  std::vector<char> reached(count), taken(known + count); // bits would take longer
  reached[a] = true;
  for (std::size_t next = 0; next < nodes.size(); ++next)
    each_at(nodes[next], [&](std::size_t i) {
      const Branch here = branch(i);
      if (taken[i] || here.a == here.b) return;
      taken[i] = true;
      for (const std::size_t end : {here.a, here.b}) {
        ++ends[end];
        if (!reached[end]) nodes.push_back(end);
        reached[end] = true;
      }
    });
  if (!reached[b]) return {};
  for (std::size_t next = 0; next < nodes.size(); ++next) { // dead ends, and what they leave behind
    const std::size_t here = nodes[next];
    if (ends[here] != 1 || here == a || here == b) continue;
    each_at(here, [&](std::size_t i) {
      if (!taken[i]) return;
      taken[i] = false;
      const Branch last = branch(i);
      --ends[last.a];
      --ends[last.b];
      nodes.push_back(last.a == here ? last.b : last.a);
    });
  }
  std::vector<Branch> way;
  way.reserve(std::min<std::size_t>(nodes.size(), most_on_the_way + 1));
  for (std::size_t i = 0; i < taken.size() && way.size() <= most_on_the_way; ++i)
    if (taken[i]) way.push_back(branch(i));
  return way;
}

Interval ohm_of(const Resolved& resolved, const Branch& branch, const Value<Range>& at) {
  int left = most_items;
  if (branch.circuit != nullptr) return ohm_of(resolved, branch.circuit->value, at, left);
  // A part with one known contact ends nobody knows where.
  if (branch.component == nullptr || branch.component->contacts.size() != 2) return unknown;
  return ohm_of(*branch.component, at);
}

bool is_linear(const Resolved& resolved, const Branch& branch) {
  if (branch.circuit != nullptr) return all_elements(resolved, branch.circuit->value, is_declared_resistive);
  return branch.component != nullptr && branch.component->contacts.size() == 2 &&
         is_declared_resistive(*branch.component);
}

bool is_steady(const Resolved& resolved, const Branch& branch) {
  if (branch.circuit != nullptr) return all_elements(resolved, branch.circuit->value, is_steady_part);
  return branch.component != nullptr && is_steady_part(*branch.component);
}

bool lies_alone(const Resolved& resolved, const Test& test) {
  if (!resolved.document->complete()) return false; // what could not be read may lie beside it
  const Resolved_component* component = resolved.component_of(test);
  if (component == nullptr || component->placed->when || !circuits_of(resolved, *component).empty())
    return false;
  return same_ends(component->contacts, test.probes) &&
         std::any_of(component->contacts.begin(), component->contacts.end(), [&](const Value<Contact>& end) {
           return resolved.lying_on(end).size() == 1 && !leaves_anyway(resolved, end);
         });
}

bool reads_the_wiring(const Document& document, const Test& test) {
  return test.side && *test.side == Side::at_board_plug && test.unplug && has_both_ends(test.probes) &&
         *test.probes[0] != *test.probes[1] && test.probes[0]->connector == *test.unplug &&
         test.probes[1]->connector == *test.unplug && !test.condition && !test.positive &&
         !test.disconnect_also && !test.before && fully_read(document, test);
}

}
