#include "ohmlore/resolve.h"
#include "ohmlore/description.h"
#include "ohmlore/file_names.h"

#include <algorithm>
#include <bit>
#include <cstring>
#include <functional>
#include <numeric>

namespace ohmlore {

void Parts::add(Document document) {
  if (document.part() == nullptr || !document.part()->id) return;
  std::string id(*document.part()->id);
  by_id_.emplace(std::move(id), std::move(document));
}

bool Resolved_component::may_be_written(const void* member) const {
  // A newer minor version has keys of its own; those are not misspelt.
  const bool newer = document->minor() > reader_minor;
  const auto stated = [&](std::string_view key) {
    return newer ? document->member(placed->node, key) != 0 : document->may_state(placed->node, key);
  };
  auto* record = const_cast<Component*>(placed); // descriptions find members to set, and here to compare
  return std::any_of(component_record.fields.begin(), component_record.fields.end(), [&](const Field& field) {
    return field.member.at(record) == member && stated(field.key);
  });
}

static std::string file_of(Text part) { return std::string(part).append(end_of_part); }

void Parts::redirect(const Redirects& redirects) {
  redirects_ = ends_of(redirects, [&](Text id) { return by_id_.contains(id); });
  redirects_.merge(ends_of(redirects, [&](Text id) { return broken_.contains(file_of(id)); }));
}

const Document* Parts::find(Text id) const {
  auto found = by_id_.find(id);
  if (found == by_id_.end())
    if (const auto redirect = redirects_.find(id); redirect != redirects_.end())
      found = by_id_.find(redirect->second);
  return found == by_id_.end() ? nullptr : &found->second;
}

Redirects redirects_of(const Keyed<Value<Text>>& written) {
  Redirects redirects;
  for (const auto& entry : written)
    if (entry.value) redirects.emplace(entry.id, *entry.value);
  return redirects;
}

Redirects redirected_documents(const Corpus& corpus) {
  Redirects redirects;
  const auto add = [&](const std::string& kind, const Keyed<Value<Text>>& written) {
    for (const auto& [old, now] : redirects_of(written)) redirects.emplace(kind + old, kind + now);
  };
  add("profile ", corpus.redirects.profiles);
  add("part ", corpus.redirects.parts);
  return redirects;
}

std::string_view Parts::broken(Text id) const {
  auto found = broken_.find(file_of(id));
  if (found == broken_.end())
    if (const auto redirect = redirects_.find(id); redirect != redirects_.end())
      found = broken_.find(file_of(redirect->second));
  return found == broken_.end() ? std::string_view() : found->second;
}

template <class T>
static const T* value_of(const Keyed<T>& map, Text id) {
  const auto* entry = map.find(id);
  return entry ? &entry->value : nullptr;
}

Id_index::Ends Id_index::ends_of(Text id) {
  Ends ends;
  if (id.size() >= sizeof ends.head) {
    std::memcpy(&ends.head, id.data(), sizeof ends.head);
    std::memcpy(&ends.tail, id.data() + id.size() - sizeof ends.tail, sizeof ends.tail);
  } else {
    for (const char c : id) ends.head = ends.head << 8 | static_cast<unsigned char>(c);
  }
  return ends;
}

// Odd constants spread the bits over the upper half (multiplicative hashing, Knuth, volume 3, 6.4), one
// number after the other, so that no two sets of each are enough to make all pairs of them meet.
static std::size_t mixed(std::uint64_t head, std::uint64_t tail, std::size_t size) {
  std::uint64_t both = (head ^ size) * 0x9E3779B97F4A7C15u;
  both = ((both ^ (both >> 32)) + tail) * 0xC2B2AE3D27D4EB4Fu;
  return static_cast<std::size_t>(both ^ (both >> 32));
}

Contact_numbers::Letters Contact_numbers::letters_of(const Contact& contact) {
  const auto letters = [](Text text) -> std::uint64_t {
    if (text.size() > sizeof(std::uint64_t)) return std::hash<Text>()(text);
    std::uint64_t bits = 0;
    for (const char c : text) bits = bits << 8 | static_cast<unsigned char>(c);
    return bits;
  };
  return {letters(contact.connector), letters(contact.pin)};
}

std::size_t Contact_numbers::slot_of(const Contact& contact, Letters letters) const {
  const std::size_t connector_size = contact.connector.size(), pin_size = contact.pin.size();
  const bool letters_say_all = connector_size <= 8 && pin_size <= 8;
  const auto is_it = [&](const Known& known) {
    return known.letters == letters && known.contact.connector.size() == connector_size &&
           known.contact.pin.size() == pin_size && (letters_say_all || known.contact == contact);
  };
  std::size_t at = mixed(letters.connector, letters.pin, pin_size) & (slots_.size() - 1);
  while (slots_[at] != 0 && !is_it(known_[slots_[at] - 1])) at = (at + 1) & (slots_.size() - 1);
  return at;
}

std::size_t Contact_numbers::find(const Contact& contact) const {
  if (slots_.empty()) return npos;
  return slots_[slot_of(contact, letters_of(contact))] - std::size_t{1}; // a free slot says npos
}

std::size_t Contact_numbers::number(const Contact& contact) {
  if (2 * (known_.size() + 1) > slots_.size()) {
    slots_.assign(std::max<std::size_t>(2 * slots_.size(), 64), 0);
    known_.reserve(slots_.size() / 2);
    for (std::uint32_t i = 0; i < known_.size(); ++i)
      slots_[slot_of(known_[i].contact, known_[i].letters)] = i + 1;
  }
  const Letters letters = letters_of(contact);
  std::uint32_t& slot = slots_[slot_of(contact, letters)];
  if (slot == 0) {
    known_.push_back({contact, letters});
    slot = static_cast<std::uint32_t>(known_.size());
  }
  return slot - 1;
}

Contact_index::Contact_index(Contact_numbers numbers, std::span<const std::pair<std::size_t, Lying>> ends)
    : numbers_(std::move(numbers)) {
  begins_.resize(numbers_.size() + 1);
  for (const auto& [number, thing] : ends) ++begins_[number + 1];
  std::partial_sum(begins_.begin(), begins_.end(), begins_.begin());
  things_.resize(ends.size());
  std::vector<std::uint32_t> next(begins_.begin(), begins_.end() - 1);
  for (const auto& [number, thing] : ends) things_[next[number]++] = thing;
}

void Id_index::reserve(std::size_t count) {
  if (count > 0) slots_.resize(std::bit_ceil(2 * count));
}

Id_index::Slot& Id_index::slot_of(Text id, Ends ends) {
  const auto is_it = [&](const Slot& slot) {
    return slot.id.size() == id.size() && slot.ends.head == ends.head && slot.ends.tail == ends.tail &&
           (id.size() <= 2 * sizeof ends.head || slot.id == id);
  };
  std::size_t at = mixed(ends.head, ends.tail, id.size()) & (slots_.size() - 1);
  while (slots_[at].position != npos && !is_it(slots_[at])) at = (at + 1) & (slots_.size() - 1);
  return slots_[at];
}

std::size_t Id_index::add(Text id, std::size_t position) {
  const Ends ends = ends_of(id);
  Slot& slot = slot_of(id, ends);
  if (slot.position == npos) slot = {id, ends, position};
  return slot.position;
}

std::size_t Id_index::find(Text id) const {
  if (slots_.empty()) return npos;
  return const_cast<Id_index*>(this)->slot_of(id, ends_of(id)).position; // a free slot says npos
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

const Circuit* Resolved::circuit(Text id) const {
  return document->profile() ? entry_of(document->profile()->circuits, circuit_index, id) : nullptr;
}

const Test* Resolved::test(Text id) const {
  return document->profile() ? entry_of(document->profile()->tests, test_index, id) : nullptr;
}

const Fault* Resolved::fault(Text id) const {
  return document->profile() ? entry_of(document->profile()->faults, fault_index, id) : nullptr;
}

// Where what a pin says of its class could not be read.
static bool may_override_class(const Document& document, const Connector& plug, const Pin* pin) {
  if (pin == nullptr) return !plug.pins && document.may_state(plug.node, "pins");
  return !*pin || document.may_state(pin->node, "circuit");
}

Resolved::Declared Resolved::declared_of(const Contact& contact) const {
  const Connector* plug = connector(contact.connector);
  if (plug == nullptr) return {};
  const Pin* p = value_of(plug->pins, contact.pin);
  if (p != nullptr && p->circuit) return {p, &p->circuit};
  if (!document->complete() && may_override_class(*document, *plug, p)) return {p, nullptr};
  return {p, plug->circuit ? &plug->circuit : nullptr};
}

Node_id Resolved::source_reference(Node_id node) const {
  for (; node != 0; node = document->node(node).parent)
    if (const Node_id source = document->member(node, "source"); source != 0) return source;
  return 0;
}

bool Resolved::may_have_source(Node_id node) const {
  while (node != 0 && !document->may_state(node, "source")) node = document->node(node).parent;
  return node != 0;
}

static std::optional<Component_kind> kind_of(const Component_type& component) {
  return component.kind ? std::optional(*component.kind) : std::nullopt;
}

static void bind_contacts(Resolved& resolved) {
  auto all = std::make_shared<std::vector<Value<Contact>>>();
  std::vector<std::size_t> begins;
  begins.reserve(resolved.components.size() + 1);
  std::size_t most = 0;
  for (const Resolved_component& component : resolved.components)
    most += component.placed->between.size() + component.placed->terminals.size();
  all->reserve(most);
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

static void index_contacts(const Profile& profile, Resolved& resolved) {
  Contact_numbers numbers;
  resolved.contact_numbers.resize(resolved.document->nodes().size());
  const auto number = [&](const Value<Contact>& contact) {
    const std::size_t known = numbers.number(*contact);
    resolved.contact_numbers[contact.node] = static_cast<std::uint32_t>(known + 1);
    if (known == resolved.declared.size()) resolved.declared.push_back(resolved.declared_of(*contact));
    return known;
  };
  std::vector<std::pair<std::size_t, Lying>> ends;
  ends.reserve(resolved.contacts->size() + 2 * profile.circuits.size());
  resolved.declared.reserve(ends.capacity());
  for (const Resolved_component& component : resolved.components)
    for (const Value<Contact>& contact : component.contacts)
      ends.push_back({number(contact), {&component, nullptr, nullptr}});
  for (const auto& circuit : profile.circuits)
    for (const Value<Contact>& contact : circuit.value.between)
      if (contact) ends.push_back({number(contact), {nullptr, &circuit.value, nullptr}});
  for (const Supply& supply : profile.safety.supplies)
    for (const Value<Contact>& contact : supply.enters_at)
      if (contact) ends.push_back({number(contact), {nullptr, nullptr, &supply}});
  for (const auto& test : profile.tests)
    for (const Value<Contact>& probe : test.value.probes)
      if (probe) number(probe);
  resolved.lying = Contact_index(std::move(numbers), ends);
}

// Links hold both ways, whichever pin states them: two sets that a link joins become one.
static void bind_links(const Profile& profile, Resolved& resolved) {
  Contact_numbers& linked = resolved.linked;
  std::vector<Contact> contacts;
  std::vector<std::size_t> parent; // of a set the first contact is its own
  const auto first_of = [&](std::size_t i) {
    while (parent[i] != i) i = parent[i] = parent[parent[i]];
    return i;
  };
  const auto number = [&](const Contact& contact) {
    const std::size_t i = linked.number(contact);
    if (i == contacts.size()) {
      contacts.push_back(contact);
      parent.push_back(i);
    }
    return i;
  };
  for (const auto& connector : profile.connectors)
    for (const auto& pin : connector.value.pins)
      for (const Value<Contact>& link : pin.value.links) {
        if (!link) continue;
        const std::size_t a = first_of(number({connector.id, pin.id})), b = first_of(number(*link));
        parent[std::max(a, b)] = std::min(a, b);
      }
  resolved.joined_of.resize(contacts.size());
  for (std::size_t i = 0; i < contacts.size(); ++i) {
    const std::size_t first = first_of(i);
    if (first == i) {
      resolved.joined_of[i] = resolved.joined.size();
      resolved.joined.emplace_back();
    }
    resolved.joined_of[i] = resolved.joined_of[first];
    resolved.joined[resolved.joined_of[i]].push_back(contacts[i]);
  }
  for (const auto& set : resolved.joined)
    resolved.joined_to_earth.push_back(std::any_of(
        set.begin(), set.end(), [&](const Contact& one) { return is_protective_earth(resolved, one); }));
}

// Each circuit is entered once, so that a loop ends.
static void bind_circuits(const Profile& profile, Resolved& resolved) {
  const std::size_t count = profile.circuits.size();
  if (count == 0) return;
  resolved.circuit_index = index_of(profile.circuits);
  std::vector<std::vector<std::size_t>> inner(count); // the circuits that are elements of each
  std::vector<std::vector<std::size_t>> holders(
      resolved.components.size()); // those that each is an element of
  for (std::size_t i = 0; i < count; ++i)
    for (const Element& element : profile.circuits.items[i].value.elements) {
      const std::size_t circuit =
          element.circuit ? resolved.circuit_index.find(*element.circuit) : Id_index::npos;
      const std::size_t part =
          element.component ? resolved.component_index.find(*element.component) : Id_index::npos;
      if (circuit != Id_index::npos) inner[i].push_back(circuit);
      if (part != Id_index::npos) holders[part].push_back(i);
    }
  const auto once = [](std::vector<std::size_t>& list) {
    std::sort(list.begin(), list.end());
    list.erase(std::unique(list.begin(), list.end()), list.end());
  };
  for (auto& list : inner) once(list);
  for (auto& list : holders) once(list);
  resolved.circuits_within.resize(count);
  std::vector<std::vector<std::size_t>> around(count); // those that each is in, in document order
  for (std::size_t i = 0; i < count; ++i) {
    std::vector<bool> entered(count);
    std::vector<std::size_t> within = {i};
    entered[i] = true;
    for (std::size_t next = 0; next < within.size(); ++next)
      for (const std::size_t deeper : inner[within[next]])
        if (!entered[deeper]) {
          entered[deeper] = true;
          within.push_back(deeper);
        }
    for (const std::size_t each : within) {
      resolved.circuits_within[i].push_back(&profile.circuits.items[each].value);
      around[each].push_back(i);
    }
  }
  resolved.circuits_around.resize(resolved.components.size());
  for (std::size_t part = 0; part < holders.size(); ++part) {
    if (holders[part].empty()) continue;
    std::vector<bool> holds(count);
    for (const std::size_t holder : holders[part])
      for (const std::size_t each : around[holder]) holds[each] = true;
    for (std::size_t i = 0; i < count; ++i)
      if (holds[i]) resolved.circuits_around[part].push_back(&profile.circuits.items[i].value);
  }
}

static void bind_tests(const Profile& profile, Resolved& resolved) {
  resolved.of_tests.reserve(profile.tests.size());
  resolved.component_tests.reserve(profile.tests.size());
  for (const auto& [id, key, test] : profile.tests) {
    const auto* component = test.component ? resolved.component(*test.component) : nullptr;
    resolved.of_tests.push_back(component);
    if (component != nullptr && component->known_kind)
      resolved.component_tests.push_back({id, &test, component});
  }
}

static void bind_suspects(const Profile& profile, Resolved& resolved) {
  std::size_t suspects = 0, tests = 0;
  for (const auto& fault : profile.faults) {
    suspects += fault.value.suspects.size();
    for (const Suspect& suspect : fault.value.suspects) tests += suspect.decided_by.size();
  }
  resolved.suspects.reserve(suspects);
  resolved.deciding.reserve(tests); // and so nothing moves
  for (const auto& fault : profile.faults)
    for (const Suspect& suspect : fault.value.suspects) {
      const auto* component = suspect.component ? resolved.component(*suspect.component) : nullptr;
      const Test* const* first = resolved.deciding.data() + resolved.deciding.size();
      for (const Value<Text>& id : suspect.decided_by)
        resolved.deciding.push_back(id ? resolved.test(*id) : nullptr);
      resolved.suspects.push_back({&fault, &suspect, component, {first, suspect.decided_by.size()}});
    }
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
      resolved.components.push_back({.id = entry.id,
                                     .node = component.node,
                                     .document = &document,
                                     .own = &component,
                                     .known_kind = kind_of(component),
                                     .placed = &component,
                                     .part = part});
    }
    resolved.connector_index = index_of(profile->connectors);
    bind_contacts(resolved);
    index_contacts(*profile, resolved);
    bind_links(*profile, resolved);
    resolved.test_index = index_of(profile->tests);
    resolved.fault_index = index_of(profile->faults);
  } else if (const Part* part = document.part(); part != nullptr && part->component) {
    resolved.components.push_back({.id = *part->id,
                                   .node = part->component.node,
                                   .document = &document,
                                   .own = &part->component,
                                   .known_kind = kind_of(part->component)});
  }
  resolved.component_index.reserve(resolved.components.size());
  for (std::size_t i = 0; i < resolved.components.size(); ++i)
    resolved.component_index.add(resolved.components[i].id, i);
  for (const Resolved_component& component : resolved.components)
    if (component.own->model && component.own->model->kind)
      resolved.own_models.push_back({&*component.own->model, &component});
  if (const Profile* profile = document.profile()) {
    bind_circuits(*profile, resolved);
    bind_tests(*profile, resolved);
    bind_suspects(*profile, resolved);
  }
  return resolved;
}

std::vector<Text> part_folders(const Corpus* corpus) {
  std::vector<Text> folders;
  if (corpus != nullptr)
    for (const Value<Text>& path : corpus->part_paths)
      if (path) folders.push_back(*path);
  if (folders.empty()) folders.push_back("parts");
  return folders;
}

std::optional<Missing_part> missing_part(const Resolved& resolved, const Resolved_component& component) {
  using enum Missing_part::Why;
  if (!component.lacks_part()) return std::nullopt;
  const Text id = *component.placed->part;
  const Parts* parts = resolved.surroundings.parts;
  if (parts == nullptr) return Missing_part{no_root, id, {}, {}};
  if (const std::string_view path = parts->broken(id); !path.empty())
    return Missing_part{broken, id, path, {}};
  if (!parts->unread().empty()) return Missing_part{unread, id, {}, parts->unread().front()};
  return Missing_part{unknown, id, {}, {}};
}

std::string text_of(const Contact& contact) {
  return std::string(contact.connector) + '.' + std::string(contact.pin);
}

const std::vector<Contact>* joined_set(const Resolved& resolved, const Contact& contact) {
  if (resolved.joined.empty()) return nullptr;
  const std::size_t number = resolved.linked.find(contact);
  return number == Contact_numbers::npos ? nullptr : &resolved.joined[resolved.joined_of[number]];
}

bool are_joined(const Resolved& resolved, const Contact& a, const Contact& b) {
  if (a == b) return true;
  const auto* set = joined_set(resolved, a);
  return set != nullptr && set == joined_set(resolved, b);
}

static bool is_joined_to_earth(const Resolved& resolved, const Contact& contact) {
  const auto* set = joined_set(resolved, contact);
  return set != nullptr && resolved.joined_to_earth[static_cast<std::size_t>(set - resolved.joined.data())];
}

bool is_earthed(const Resolved& resolved, const Contact& contact) {
  return is_protective_earth(resolved, contact) || is_joined_to_earth(resolved, contact);
}

bool is_earthed(const Resolved& resolved, const Value<Contact>& contact) {
  return is_protective_earth(resolved, contact) || is_joined_to_earth(resolved, *contact);
}

}
