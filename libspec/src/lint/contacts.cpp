#include "lint/contacts.h"

#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {

std::string listed(const std::vector<Contact>& contacts) {
  std::vector<std::string> texts;
  for (const Contact& contact : contacts) texts.push_back(text_of(contact));
  return listed<std::vector<std::string>>(texts);
}

bool holds(const std::vector<Contact>& contacts, const Contact& contact) {
  return std::find(contacts.begin(), contacts.end(), contact) != contacts.end();
}

std::vector<const Circuit*> circuits_in(const Resolved& resolved, const Circuit& circuit) {
  std::vector<const Circuit*> circuits = {&circuit};
  for (std::size_t next = 0; next < circuits.size(); ++next)
    for (const Element& element : circuits[next]->elements) {
      if (!element.circuit) continue;
      const auto* inner = resolved.document->profile()->circuits.find(*element.circuit);
      if (inner != nullptr && std::find(circuits.begin(), circuits.end(), &inner->value) == circuits.end())
        circuits.push_back(&inner->value);
    }
  return circuits;
}

std::vector<Text> components_in(const Resolved& resolved, const Circuit& circuit) {
  std::vector<Text> components;
  for (const Circuit* each : circuits_in(resolved, circuit))
    for (const Element& element : each->elements)
      if (element.component) components.push_back(*element.component);
  return components;
}

std::vector<const Circuit*> circuits_of(const Resolved& resolved, Text component) {
  std::vector<const Circuit*> circuits;
  if (const Profile* profile = resolved.document->profile())
    for (const auto& entry : profile->circuits) {
      const std::vector<Text> components = components_in(resolved, entry.value);
      if (std::find(components.begin(), components.end(), component) != components.end())
        circuits.push_back(&entry.value);
    }
  return circuits;
}

std::vector<Contact> reached_contacts(const Resolved& resolved, const Resolved_component& component) {
  std::vector<Contact> reached;
  const auto add = [&](const Value<Contact>& contact) {
    if (!contact) return;
    for (const Contact& joined : joined_contacts(resolved, *contact))
      if (!holds(reached, joined)) reached.push_back(joined);
  };
  for (const Value<Contact>& contact : component.contacts) add(contact);
  for (const Circuit* circuit : circuits_of(resolved, component.id))
    for (const Value<Contact>& contact : circuit->between) add(contact);
  return reached;
}

const Contact* far_end(const List<Value<Contact>>& between, const Contact& here) {
  if (between.size() != 2 || !between[0] || !between[1] || *between[0] == *between[1]) return nullptr;
  if (*between[0] == here) return &*between[1];
  return *between[1] == here ? &*between[0] : nullptr;
}

bool same_ends(const List<Value<Contact>>& a, const List<Value<Contact>>& b) {
  if (a.size() != 2 || b.size() != 2 || !a[0] || !a[1] || !b[0] || !b[1]) return false;
  return (*a[0] == *b[0] && *a[1] == *b[1]) || (*a[0] == *b[1] && *a[1] == *b[0]);
}

bool on_own_contacts(const Test& test, const Resolved_component& component) {
  const auto contacts = component.contacts;
  const auto is_own = [&](const Value<Contact>& probe) {
    return probe && std::any_of(contacts.begin(), contacts.end(),
                                [&](const Value<Contact>& contact) { return *contact == *probe; });
  };
  return test.probes.size() == 2 && is_own(test.probes[0]) && is_own(test.probes[1]);
}

bool touches(const Resolved& resolved, const Test& test, Circuit_class circuit) {
  return std::any_of(test.probes.begin(), test.probes.end(), [&](const Value<Contact>& probe) {
    const auto* found = probe ? resolved.circuit_class(*probe) : nullptr;
    return found != nullptr && **found == circuit;
  });
}

// Absent, or not read whole: all there are.
static bool apart(const List<Value<Text>>& a, const List<Value<Text>>& b) {
  const auto whole = [](const List<Value<Text>>& list) {
    return !list.empty() &&
           std::all_of(list.begin(), list.end(), [](const Value<Text>& text) { return bool(text); });
  };
  if (!whole(a) || !whole(b)) return false;
  return std::none_of(a.begin(), a.end(), [&](const Value<Text>& one) {
    return std::any_of(b.begin(), b.end(), [&](const Value<Text>& other) { return *one == *other; });
  });
}

bool never_together(const Applies_when& a, const Applies_when& b) {
  return apart(a.models, b.models) || apart(a.software, b.software);
}

}
