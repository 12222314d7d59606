#include "lint/suspect_place.h"

#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

bool holds_component(const Resolved& resolved, const Circuit& circuit, Text component) {
  const auto& holders = circuits_of(resolved, component); // in document order, as they lie in memory
  return std::binary_search(holders.begin(), holders.end(), &circuit);
}

// Whether an element of a circuit, when open, opens the whole, and when shorted, shorts the whole. Empty
// where the component is no element of it. Each circuit is entered once, so that a loop ends.
struct Effect {
  bool open_opens = true, short_shorts = true;
};
std::optional<Effect> effect_in(const Resolved& resolved, const Circuit& circuit, Text component,
                                std::vector<bool>& entered) {
  if (!holds_component(resolved, circuit, component)) return std::nullopt;
  const std::size_t position = resolved.document->profile()->circuits.position_of(circuit);
  if (entered[position]) return std::nullopt;
  entered[position] = true;
  for (const Element& element : circuit.elements) {
    std::optional<Effect> inner;
    if (element.component && *element.component == component) inner = Effect{};
    if (element.circuit)
      if (const Circuit* nested = resolved.circuit(*element.circuit))
        inner = effect_in(resolved, *nested, component, entered);
    if (!inner) continue;
    if (circuit.elements.size() > 1 && circuit.arrangement) {
      if (*circuit.arrangement == Arrangement::series) inner->short_shorts = false;
      if (*circuit.arrangement == Arrangement::parallel) inner->open_opens = false;
    }
    return inner;
  }
  return std::nullopt;
}
std::optional<Effect> effect_in(const Resolved& resolved, const Circuit& circuit, Text component) {
  std::vector<bool> entered(resolved.document->profile()->circuits.size());
  return effect_in(resolved, circuit, component, entered);
}

Place in_circuit(const Path& path, Text component, const Circuit& circuit) {
  const auto effect = effect_in(path.resolved, circuit, component);
  if (!effect) return Place::somewhere;
  if (effect->open_opens && effect->short_shorts) return Place::across;
  if (effect->open_opens) return Place::in_series;
  return effect->short_shorts ? Place::in_parallel : Place::somewhere;
}

// Another part than the test's own lies on the same two contacts.
bool shares_both(const Path& path, const Resolved_component& component) {
  if (path.shared) return *path.shared;
  const auto on_second = [&](const Resolved_component* other) {
    const auto lying = path.resolved.lying_on(path.test.probes[1]);
    return std::any_of(lying.begin(), lying.end(),
                       [&](const Lying& beside) { return beside.component == other; });
  };
  const auto on_first = path.resolved.lying_on(path.test.probes[0]);
  const Never_together never_beside(component.placed->when);
  path.shared = std::any_of(on_first.begin(), on_first.end(), [&](const Lying& thing) {
    const Resolved_component* other = thing.component;
    return other != nullptr && other != &component && on_second(other) && !never_beside(other->placed->when);
  });
  return *path.shared;
}

// The leads go beyond the test's own component, to read others in series with it.
bool reads_further(const Path& path) {
  const Resolved_component* own = path.resolved.component_of(path.test);
  if (own == nullptr || on_own_contacts(path.test, *own)) return false;
  if (path.test.expect.kind && *path.test.expect.kind == Expectation_kind::open) return false;
  const Reach reached(path.resolved, *own);
  return reached.holds(path.first) != reached.holds(path.second);
}

// The part lies on two ends of the test's own component, of which the leads are on one: a capacitor across
// two windings, say, beside which the one is read.
bool lies_beside(const Path& path, const Suspected_part& part) {
  const Resolved_component* own = path.resolved.component_of(path.test);
  if (own == nullptr || own->contacts.size() < 3 || part.component.contacts.size() != 2) return false;
  return std::all_of(part.component.contacts.begin(), part.component.contacts.end(), [&](const auto& end) {
    return std::any_of(own->contacts.begin(), own->contacts.end(),
                       [&](const auto& contact) { return *contact == *end; });
  });
}

// The part conducts between the two by its model: half of a secondary whose middle lies on the case, say.
bool conducts_between(const Path& path, const Resolved_component& component) {
  const auto model = component.get(&Component_type::model);
  return model && pair_interval(path, component, *model);
}

}

const Circuit* chain_between(const Path& path, const Suspected_part& part) {
  const Circuit* found = nullptr;
  for (const Circuit* circuit : part.circuits) {
    if (!has_both_ends(circuit->between)) continue;
    const Contact &from = *circuit->between[0], &to = *circuit->between[1];
    if ((path.at_first(from) && path.at_second(to)) || (path.at_first(to) && path.at_second(from)))
      found = outer_of(path.resolved, found, *circuit);
  }
  return found;
}

std::optional<Interval> pair_interval(const Path& path, const Resolved_component& component,
                                      const Resistance_model& model) {
  const Terminal_pair* pair = path.known ? pair_between(component, model, path.first, path.second) : nullptr;
  return pair != nullptr ? std::optional(toleranced_interval(*pair->resistance, model.tolerance))
                         : std::nullopt;
}

Place place_of(const Path& path, const Suspected_part& part) {
  const Resolved_component& component = part.component;
  const Test& test = path.test;
  const bool own = test.component && *test.component == component.id;
  if (test.side && *test.side == Side::harness) {
    // End to end of a lead that belongs to the part.
    const bool lead = own && path.known && path.first.connector != path.second.connector &&
                      part.reached.holds(path.first) && part.reached.holds(path.second);
    return lead ? Place::across : Place::elsewhere;
  }
  if (test.expect.with && *test.expect.with == component.id) return Place::across;
  const bool at_part = test.side && *test.side == Side::at_component;
  if (!own && (at_part || !path.known)) return Place::elsewhere;
  const Place alone = part.terminals > 2 ? Place::one_of_many : Place::across;
  if (!path.known) return alone;

  const bool disconnected = stated(*path.resolved.document, test, "disconnect_also", test.disconnect_also);
  if (!at_part)
    if (const Circuit* chain = chain_between(path, part)) return in_circuit(path, component.id, *chain);

  // Between two of its own terminals, of which one is its earth: what leaks is seen there.
  if (own && part.terminals > 2 && path.first_earthed() != path.second_earthed() &&
      !conducts_between(path, component))
    return Place::to_earth;
  const auto reached = [&](const Contact& lead) {
    return !own && path.withdrawn(lead) ? part.reached.holds_off_board(lead) : part.reached.holds(lead);
  };
  const bool on_first = reached(path.first), on_second = reached(path.second);
  if (on_first && on_second) {
    if (own) return !at_part && !disconnected && shares_both(path, component) ? Place::in_parallel : alone;
    return disconnected ? Place::elsewhere : Place::in_parallel;
  }
  if (on_first || on_second) {
    if (on_first ? path.second_earthed() : path.first_earthed())
      return own && part.terminals == 1 ? Place::across : Place::to_earth;
    if (own) return part.terminals > 1 ? Place::somewhere : Place::across;
    if (!disconnected && lies_beside(path, part)) return Place::somewhere;
    return reads_further(path) ? Place::somewhere : Place::elsewhere;
  }
  if (own) return path.to_earth() ? Place::to_earth : alone;
  // Perhaps a piece of a chain that holds both.
  if (test.component)
    for (const Circuit* circuit : part.circuits)
      if (holds_component(path.resolved, *circuit, *test.component)) return Place::somewhere;
  return Place::elsewhere;
}

Place place_of(const Path& path, const Suspect& suspect, bool alone) {
  if (!suspect.connector || !path.known || !path.test.side) return Place::somewhere;
  const Connector* connector = path.resolved.connector(*suspect.connector);
  if (connector == nullptr) return Place::somewhere;
  const bool on_board = !connector->mounted || *connector->mounted == Mounting::board;
  const bool touched = path.on(*suspect.connector);
  const auto wire = [&] {
    if (path.to_earth()) return Place::to_earth;
    return alone ? Place::across : Place::one_of_many;
  };
  switch (*path.test.side) {
  case Side::at_component: return Place::elsewhere;
  case Side::at_inline_connector:
    if (on_board) return Place::elsewhere;
    return touched ? wire() : Place::somewhere;
  case Side::harness:
  case Side::at_board_plug:
    if (touched) return wire();
    return on_board ? Place::elsewhere : Place::somewhere;
  }
  return Place::somewhere;
}

}
