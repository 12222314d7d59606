#include "ohmlore/resolve.h"

#include <algorithm>
#include <bit>
#include <cstring>

namespace ohmlore {

void Parts::add(Document document) {
  if (document.part() == nullptr || !document.part()->id) return;
  std::string id(*document.part()->id);
  by_id_.emplace(std::move(id), std::move(document));
}

const Document* Parts::find(Text id) const {
  const auto found = by_id_.find(id);
  return found == by_id_.end() ? nullptr : &found->second;
}

std::string_view Parts::broken(Text id) const {
  const auto found = broken_.find(std::string(id) + ".part.json");
  return found == broken_.end() ? std::string_view() : found->second;
}

template <class T>
static const T* value_of(const Keyed<T>& map, Text id) {
  const auto* entry = map.find(id);
  return entry ? &entry->value : nullptr;
}

static std::size_t hash_of(Text id) {
  // Length and both ends tell ids apart well enough.
  std::uint64_t head = 0, tail = 0;
  if (id.size() >= sizeof head) {
    std::memcpy(&head, id.data(), sizeof head);
    std::memcpy(&tail, id.data() + id.size() - sizeof tail, sizeof tail);
  } else {
    for (const char c : id) head = head << 8 | static_cast<unsigned char>(c);
  }
  // Odd constants spread the bits over the upper half (multiplicative hashing, Knuth, volume 3, 6.4).
  const std::uint64_t mixed = (head * 0x9E3779B97F4A7C15u) ^ (tail * 0xC2B2AE3D27D4EB4Fu) ^ id.size();
  return static_cast<std::size_t>(mixed ^ (mixed >> 32));
}

void Id_index::reserve(std::size_t count) {
  if (count > 0) slots_.resize(std::bit_ceil(2 * count));
}

Id_index::Slot& Id_index::slot_of(Text id) {
  std::size_t at = hash_of(id) & (slots_.size() - 1);
  while (slots_[at].position != npos && slots_[at].id != id) at = (at + 1) & (slots_.size() - 1);
  return slots_[at];
}

void Id_index::add(Text id, std::size_t position) {
  Slot& slot = slot_of(id);
  if (slot.position == npos) slot = {id, position};
}

std::size_t Id_index::find(Text id) const {
  if (slots_.empty()) return npos;
  return const_cast<Id_index*>(this)->slot_of(id).position; // a free slot says npos
}

template <class T>
static Id_index index_of(const Keyed<T>& map) {
  Id_index index;
  index.reserve(map.size());
  for (std::size_t i = 0; i < map.size(); ++i) index.add(map.items[i].id, i);
  return index;
}

template <class T>
static const T* entry_of(const Keyed<T>& map, const Id_index& index, Text id) {
  const std::size_t at = index.find(id);
  return at == Id_index::npos ? nullptr : &map.items[at].value;
}

const Resolved_component* Resolved::component(Text id) const {
  const std::size_t at = component_index.find(id);
  return at == Id_index::npos ? nullptr : &components[at];
}

const Connector* Resolved::connector(Text id) const {
  return document->profile() ? entry_of(document->profile()->connectors, connector_index, id) : nullptr;
}

const Pin* Resolved::pin(const Contact& contact) const {
  const Connector* plug = connector(contact.connector);
  return plug ? value_of(plug->pins, contact.pin) : nullptr;
}

const Test* Resolved::test(Text id) const {
  return document->profile() ? entry_of(document->profile()->tests, test_index, id) : nullptr;
}

const Fault* Resolved::fault(Text id) const {
  return document->profile() ? entry_of(document->profile()->faults, fault_index, id) : nullptr;
}

const Value<Circuit_class>* Resolved::circuit_class(const Contact& contact) const {
  if (const Pin* p = pin(contact); p != nullptr && p->circuit) return &p->circuit;
  const Connector* plug = connector(contact.connector);
  return plug != nullptr && plug->circuit ? &plug->circuit : nullptr;
}

bool Resolved::has_source(Node_id node) const {
  for (; node != 0; node = document->node(node).parent)
    if (document->member(node, "source") != 0) return true;
  return false;
}

static void bind_contacts(Resolved& resolved) {
  auto all = std::make_shared<std::vector<Value<Contact>>>();
  std::vector<std::size_t> begins;
  for (const Resolved_component& component : resolved.components) {
    begins.push_back(all->size());
    for (const Value<Contact>& contact : component.placed->between)
      if (contact) all->push_back(contact);
    for (const auto& terminal : component.placed->terminals)
      if (terminal.value) all->push_back(terminal.value);
  }
  begins.push_back(all->size());
  for (std::size_t i = 0; i < resolved.components.size(); ++i)
    resolved.components[i].contacts = {all->data() + begins[i], begins[i + 1] - begins[i]};
  resolved.contacts = std::move(all);
}

static void bind_links(const Profile& profile, Resolved& resolved) {
  for (const auto& connector : profile.connectors)
    for (const auto& pin : connector.value.pins)
      for (const Value<Contact>& link : pin.value.links)
        if (link) resolved.links.push_back({{connector.id, pin.id}, *link});
}

Resolved resolve(const Document& document, const Surroundings& surroundings) {
  Resolved resolved;
  resolved.document = &document;
  resolved.surroundings = surroundings;
  if (const Profile* profile = document.profile()) {
    resolved.components.reserve(profile->components.size());
    for (const auto& entry : profile->components) {
      if (!entry.value) continue; // not an object: reported by the reader
      const Component& component = entry.value;
      const Document* part =
          component.part && surroundings.parts ? surroundings.parts->find(*component.part) : nullptr;
      resolved.components.push_back({entry.id, component.node, &document, &component, &component, part});
    }
    bind_contacts(resolved);
    bind_links(*profile, resolved);
    resolved.connector_index = index_of(profile->connectors);
    resolved.test_index = index_of(profile->tests);
    resolved.fault_index = index_of(profile->faults);
  } else if (const Part* part = document.part(); part != nullptr && part->component) {
    resolved.components.push_back(
        {*part->id, part->component.node, &document, &part->component, nullptr, nullptr});
  }
  resolved.component_index.reserve(resolved.components.size());
  for (std::size_t i = 0; i < resolved.components.size(); ++i)
    resolved.component_index.add(resolved.components[i].id, i);
  return resolved;
}

std::string text_of(const Contact& contact) {
  return std::string(contact.connector) + '.' + std::string(contact.pin);
}

std::vector<Contact> joined_contacts(const Resolved& resolved, const Contact& contact) {
  // Links hold both ways, whichever pin states them.
  std::vector<Contact> joined = {contact};
  const auto add = [&](const Contact& other) {
    if (std::find(joined.begin(), joined.end(), other) == joined.end()) joined.push_back(other);
  };
  for (std::size_t next = 0; next < joined.size(); ++next) {
    const Contact here = joined[next];
    for (const auto& [owner, linked] : resolved.links) {
      if (owner == here) add(linked);
      if (linked == here) add(owner);
    }
  }
  return joined;
}

}
