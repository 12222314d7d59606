#include "lint/contacts.h"

#include <algorithm>

#include "lint/facts.h"
#include "lint/rule.h"

// So that of a long list only those that are shown are written.
template <>
struct fmt::formatter<ohmlore::Contact> : fmt::formatter<std::string> {
  template <class Context>
  auto format(const ohmlore::Contact& contact, Context& context) const {
    return fmt::formatter<std::string>::format(ohmlore::text_of(contact), context);
  }
};

namespace ohmlore::rules {

std::string listed(const std::vector<Contact>& contacts) { return listed<std::vector<Contact>>(contacts); }

bool holds(const std::vector<Contact>& contacts, const Contact& contact) {
  return std::find(contacts.begin(), contacts.end(), contact) != contacts.end();
}

const std::vector<const Circuit*>& circuits_in(const Resolved& resolved, const Circuit& circuit) {
  return resolved.circuits_within[resolved.document->profile()->circuits.position_of(circuit)];
}

const Circuit* outer_of(const Resolved& resolved, const Circuit* first, const Circuit& second) {
  const auto& within = circuits_in(resolved, second);
  return first == nullptr || std::find(within.begin(), within.end(), first) != within.end() ? &second : first;
}

static const std::vector<const Circuit*> no_circuits;

const std::vector<const Circuit*>& circuits_of(const Resolved& resolved,
                                               const Resolved_component& component) {
  return resolved.circuits_around.empty() ? no_circuits
                                          : resolved.circuits_around[resolved.position_of(component)];
}

const std::vector<const Circuit*>& circuits_of(const Resolved& resolved, Text component) {
  const Resolved_component* found = resolved.component(component);
  return found != nullptr ? circuits_of(resolved, *found) : no_circuits;
}

Reach::Reach(const Resolved& resolved, const Resolved_component& component) : resolved_(&resolved) {
  const auto add = [&](const Value<Contact>& contact) {
    if (!contact) return;
    ends_.push_back(*contact);
    if (const auto* set = joined_set(resolved, *contact)) sets_.push_back(set);
  };
  ends_.reserve(component.contacts.size());
  for (const Value<Contact>& contact : component.contacts) add(contact);
  for (const Circuit* circuit : circuits_of(resolved, component))
    for (const Value<Contact>& contact : circuit->between) add(contact);
  std::sort(sets_.begin(), sets_.end());
}

bool Reach::holds_off_board(const Contact& contact) const { return rules::holds(ends_, contact); }

bool Reach::holds(const Contact& contact) const {
  if (holds_off_board(contact)) return true;
  const auto* set = joined_set(*resolved_, contact);
  return set != nullptr && std::binary_search(sets_.begin(), sets_.end(), set);
}

std::vector<Contact> Reach::contacts() const {
  std::vector<Contact> all;
  Contact_numbers seen;
  const auto add = [&](const Contact& contact) {
    if (seen.number(contact) == all.size()) all.push_back(contact);
  };
  for (const Contact& end : ends_) {
    const auto* set = joined_set(*resolved_, end);
    const bool known = seen.find(end) != Contact_numbers::npos; // and so all that are joined with it
    add(end);
    if (set != nullptr && !known) std::for_each(set->begin(), set->end(), add);
  }
  return all;
}

const Contact* far_end(const List<Value<Contact>>& between, const Contact& here) {
  if (!has_both_ends(between) || *between[0] == *between[1]) return nullptr;
  if (*between[0] == here) return &*between[1];
  return *between[1] == here ? &*between[0] : nullptr;
}

bool same_ends(std::span<const Value<Contact>> a, std::span<const Value<Contact>> b) {
  if (!has_both_ends(a) || !has_both_ends(b)) return false;
  return (*a[0] == *b[0] && *a[1] == *b[1]) || (*a[0] == *b[1] && *a[1] == *b[0]);
}

const Terminal_pair* pair_between(const Resolved_component& component, const Resistance_model& model,
                                  const Contact& a, const Contact& b) {
  if (component.placed == nullptr) return nullptr;
  const auto at = [&](const Value<Text>& terminal) -> const Contact* {
    const auto* found = terminal ? component.placed->terminals.find(*terminal) : nullptr;
    return found != nullptr && found->value ? &*found->value : nullptr;
  };
  for (const Terminal_pair& pair : model.pairs) {
    const Contact *from = at(pair.from), *to = at(pair.to);
    if (from == nullptr || to == nullptr || !pair.resistance) continue;
    if ((*from == a && *to == b) || (*from == b && *to == a)) return &pair;
  }
  return nullptr;
}

bool on_own_contacts(const Test& test, const Resolved_component& component) {
  const auto contacts = component.contacts;
  const auto is_own = [&](const Value<Contact>& probe) {
    return probe && std::any_of(contacts.begin(), contacts.end(),
                                [&](const Value<Contact>& contact) { return *contact == *probe; });
  };
  return test.probes.size() == 2 && is_own(test.probes[0]) && is_own(test.probes[1]);
}

// A lead lies on a terminal of that name.
static bool reads_terminal(const Resolved_component& component, const Test& test, std::string_view name,
                           std::string_view long_name) {
  const auto& terminals = component.placed->terminals;
  return std::any_of(terminals.begin(), terminals.end(), [&](const auto& terminal) {
    const std::string id = folded(terminal.id);
    return (id == name || id == long_name) && terminal.value &&
           std::any_of(test.probes.begin(), test.probes.end(),
                       [&](const Value<Contact>& probe) { return probe && *probe == *terminal.value; });
  });
}

Throw throw_between_probes(const Resolved_component& component, const Test& test) {
  const auto contacts = component.get(&Component_type::contacts);
  if (!contacts || **contacts != Contacts::changeover || component.placed == nullptr ||
      !reads_terminal(component, test, "nc", "normally_closed"))
    return Throw::as_stated;
  return reads_terminal(component, test, "no", "normally_open") ? Throw::none : Throw::normally_closed;
}

std::optional<Contact_state> state_between_probes(const Resolved_component& component, const Test& test) {
  if (!test.condition) return std::nullopt;
  const auto* state = component.get(&Component_type::states)->find(*test.condition);
  if (state == nullptr || !state->value) return std::nullopt;
  const bool is_open = *state->value == Contact_state::open;
  switch (throw_between_probes(component, test)) {
  case Throw::as_stated: return *state->value;
  case Throw::normally_closed: return is_open ? Contact_state::closed : Contact_state::open;
  case Throw::none: break;
  }
  return Contact_state::open;
}

bool touches(const Resolved& resolved, const Test& test, Circuit_class circuit) {
  return std::any_of(test.probes.begin(), test.probes.end(), [&](const Value<Contact>& probe) {
    const auto* found = probe ? resolved.circuit_class(probe) : nullptr;
    return found != nullptr && **found == circuit;
  });
}

// Absent, or not read whole: all there are.
static bool is_whole(const List<Value<Text>>& list) {
  return !list.empty() &&
         std::all_of(list.begin(), list.end(), [](const Value<Text>& text) { return bool(text); });
}

static std::optional<Id_index> indexed(const List<Value<Text>>& list) {
  if (!is_whole(list)) return std::nullopt;
  Id_index index;
  index.reserve(list.size());
  for (std::size_t i = 0; i < list.size(); ++i) index.add(*list[i], i);
  return index;
}

static bool apart(const std::optional<Id_index>& one, const List<Value<Text>>& other) {
  return one && is_whole(other) && std::none_of(other.begin(), other.end(), [&](const Value<Text>& text) {
           return one->find(*text) != Id_index::npos;
         });
}

bool models_apart(const Applies_when& a, const Applies_when& b) {
  return !b.models.empty() && apart(indexed(a.models), b.models);
}

bool never_together(const Applies_when& a, const Applies_when& b) { return Never_together(a)(b); }

Never_together::Never_together(const Applies_when& when)
    : models_(indexed(when.models)), software_(indexed(when.software)) {}

bool Never_together::operator()(const Applies_when& other) const {
  return apart(models_, other.models) || apart(software_, other.software);
}

}
