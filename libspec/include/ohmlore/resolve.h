// What a document means beside others: parts overlaid, contacts and references bound, the policy of its
// corpus.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "ohmlore/document.h"

namespace ohmlore {

/// By an old id, or the name of a document in keys, the new one.
using Redirects = std::map<std::string, std::string, std::less<>>;
Redirects redirects_of(const Keyed<Value<Text>>& written);
/// The same of the documents of a corpus, by their names in keys: "profile old" to "profile new".
Redirects redirected_documents(const Corpus& corpus);

/// By each redirected id that is not there itself, the first along the redirects that `is_there`; those that
/// lead nowhere, or round in a loop, are left out. Each redirect is followed once, however long the way.
template <class Is_there>
Redirects ends_of(const Redirects& redirects, Is_there is_there) {
  Redirects ends;
  for (const auto& [old, next] : redirects) {
    std::vector<std::string*> passed; // ids that lead where this one does
    std::string_view id = old;
    while (!is_there(id)) {
      const auto redirect = redirects.find(id);
      if (redirect == redirects.end()) break;
      const auto [end, fresh] = ends.try_emplace(redirect->first); // empty until the end is found
      if (!fresh) {
        id = end->second;
        break;
      }
      passed.push_back(&end->second);
      id = redirect->second;
    }
    if (is_there(id))
      for (std::string* end : passed) *end = id;
  }
  std::erase_if(ends, [](const auto& end) { return end.second.empty(); });
  return ends;
}

/// Part documents by id. Filled once, read-only afterwards.
class Parts {
public:
  /// Adds a part that was read without errors (any other: add_broken); the first one of an id stays.
  /// Documents without a part record are ignored.
  void add(Document document);
  /// Names that the parts added so far had before.
  void redirect(const Redirects& redirects);
  /// The part of an id; where there is none, the one that it is redirected to.
  const Document* find(Text id) const;
  /// A part file that does not read without errors: known by its file name only, never overlaid.
  void add_broken(std::string file_name, std::string path) {
    broken_.emplace(std::move(file_name), std::move(path));
  }
  /// Path of the broken file that would hold the part, or empty.
  std::string_view broken(Text id) const;
  /// Why a file that may hold a part could not be read; one sentence.
  void add_unread(std::string why) { unread_.push_back(std::move(why)); }
  const std::vector<std::string>& unread() const { return unread_; }
  std::size_t size() const { return by_id_.size(); }
  auto begin() const { return by_id_.begin(); }
  auto end() const { return by_id_.end(); }

private:
  std::map<std::string, Document, std::less<>> by_id_;
  std::map<std::string, std::string, std::less<>> broken_;
  std::vector<std::string> unread_;
  Redirects redirects_; ///< each to the part in the end, or else to a broken file
};

struct House_schema;

/// What surrounds a document; null members where there is no root.
struct Surroundings {
  const Corpus* corpus = nullptr;
  const Parts* parts = nullptr;
  const House_schema* house_schema = nullptr; ///< null where the corpus has none; else usable
};

/// A member together with the document that it stands in (an overlaid one stands in the part's).
template <class T>
struct In_document {
  const T* value = nullptr; ///< never null
  const Document* document = nullptr;
  explicit operator bool() const { return value->node != 0; }
  const T& operator*() const { return *value; }
  const T* operator->() const { return value; }
};

/// One component with its part laid beneath it: an absent member is the part's.
struct Resolved_component {
  Text id;
  Node_id node = 0; ///< of its record, in `document`
  const Document* document = nullptr;
  const Component_type* own = nullptr;      ///< never null
  std::optional<Component_kind> known_kind; ///< empty where it could not be read
  const Component* placed = nullptr;        ///< null for the component of a part document
  const Document* part = nullptr;           ///< the part document; null where none is named or found
  /// Contacts that it lies on: of `between` and of `terminals`, in document order.
  std::span<const Value<Contact>> contacts = {};

  /// The member that holds: the component's own, also where that could not be read, else the part's. Nothing
  /// is copied.
  template <class T>
  In_document<T> get(T Component_type::*member) const {
    const T& mine = own->*member;
    if (mine.node != 0 || part == nullptr || may_be_unread(&mine)) return {&mine, document};
    return {&(part->part()->component.*member), part};
  }
  template <class R>
  In_document<R> get(Apart<R> Component_type::*member) const {
    const Apart<R>& mine = own->*member;
    if (mine || part == nullptr || may_be_unread(&mine)) return {&*mine, document};
    return {&*(part->part()->component.*member), part};
  }
  /// Whether the member that holds is stated as that.
  template <class T>
  bool has(Value<T> Component_type::*member, T value) const {
    const auto stated = get(member);
    return stated && **stated == value;
  }
  /// It names a part, and that is not there: `missing_part` says why.
  bool lacks_part() const { return part == nullptr && placed != nullptr && placed->part; }
  Component_kind kind() const { return known_kind.value_or(Component_kind{}); }
  bool is(Component_kind wanted) const { return known_kind == wanted; }

private:
  /// Whether an absent member of `placed` could not be read: its value, or perhaps its key.
  bool may_be_unread(const void* member) const { return !document->complete() && may_be_written(member); }
  bool may_be_written(const void* member) const;
};

/// Whether a component may have a member that it states in no way that could be read: here, or in a part that
/// was not found or whose name could not be read. `own`: its own of that key.
template <class Member>
bool may_have(const Resolved_component& component, std::string_view key, const Member& own) {
  const Document& document = *component.document;
  const auto may_state = [&](std::string_view member) { return document.may_state(component.node, member); };
  return !own &&
         (component.lacks_part() ||
          (!document.complete() && (may_state(key) || (component.part == nullptr && may_state("part")))));
}

/// A test of a component that the profile has, of a kind that could be read.
struct Component_test {
  Text id;
  const Test* test = nullptr;                    ///< never null
  const Resolved_component* component = nullptr; ///< never null
};

/// A resistance model written in this document, of a kind that could be read, and the component that has it.
struct Own_model {
  const Resistance_model* model = nullptr;       ///< never null
  const Resolved_component* component = nullptr; ///< never null
};

/// One suspect of a fault, with what it names.
struct Bound_suspect {
  const Keyed<Fault>::Entry* fault = nullptr; ///< never null
  const Suspect* own = nullptr;               ///< never null
  const Resolved_component* component = nullptr;
  /// The tests of `decided_by`, in its order: null for one that the document does not have.
  std::span<const Test* const> tests = {};
};

/// Entries by id: where in its map each stands.
class Id_index {
public:
  void reserve(std::size_t count);
  /// The first entry of an id stays: its position is returned.
  std::size_t add(Text id, std::size_t position);
  /// The position, or npos.
  std::size_t find(Text id) const;
  static constexpr std::size_t npos = static_cast<std::size_t>(-1);

private:
  /// The first and the last eight bytes, which are all of most ids.
  struct Ends {
    std::uint64_t head = 0, tail = 0;
  };
  struct Slot {
    Text id;
    Ends ends;
    std::size_t position = npos;
  };
  static Ends ends_of(Text id);
  Slot& slot_of(Text id, Ends ends);
  std::vector<Slot> slots_; ///< a power of two of them, half of them free at least
};

/// Contacts by name: a number for each, from 0 on.
class Contact_numbers {
public:
  /// The number of a contact, new where it has none yet.
  std::size_t number(const Contact& contact);
  /// The number, or npos.
  std::size_t find(const Contact& contact) const;
  const Contact& operator[](std::size_t number) const { return known_[number].contact; }
  std::size_t size() const { return known_.size(); }
  static constexpr std::size_t npos = static_cast<std::size_t>(-1);

private:
  /// Eight bytes each: all letters of most names, of longer ones a hash.
  struct Letters {
    std::uint64_t connector = 0, pin = 0;
    friend bool operator==(const Letters&, const Letters&) = default;
  };
  struct Known {
    Contact contact;
    Letters letters;
  };
  static Letters letters_of(const Contact& contact);
  std::size_t slot_of(const Contact& contact, Letters letters) const;
  std::vector<Known> known_; ///< by number
  std::vector<std::uint32_t>
      slots_; ///< numbers + 1, 0 where free; a power of two, half of them free at least
};

/// One end of a component or of a circuit, or where a supply enters: one of the three.
struct Lying {
  const Resolved_component* component = nullptr;
  const Circuit* circuit = nullptr;
  const Supply* supply = nullptr;
};

/// What lies on each contact, by its number: components, circuits, supplies, each in document order.
class Contact_index {
public:
  Contact_index() = default;
  Contact_index(Contact_numbers numbers, std::span<const std::pair<std::size_t, Lying>> ends);
  std::span<const Lying> at(std::size_t number) const {
    if (number >= size()) return {};
    return {things_.data() + begins_[number], things_.data() + begins_[number + 1]};
  }
  std::span<const Lying> at(const Contact& contact) const { return at(number_of(contact)); }
  /// The number, or npos.
  std::size_t number_of(const Contact& contact) const { return numbers_.find(contact); }
  /// How many contacts have one.
  std::size_t size() const { return numbers_.size(); }

private:
  Contact_numbers numbers_;
  std::vector<std::uint32_t> begins_; ///< by number, and the end of the last
  std::vector<Lying> things_;
};

/// A document bound to its surroundings. Views into both, and into itself: keep them alive, and where they
/// are, as it knows the document by its address. Moved, never copied.
struct Resolved {
  Resolved() = default;
  Resolved(Resolved&&) = default;
  Resolved& operator=(Resolved&&) = default;

  const Document* document = nullptr;
  Surroundings surroundings;
  std::vector<Resolved_component> components; ///< of a profile all, of a part its one (id: the part's)
  /// Contacts that the board joins, by the `links` of its pins: each set once, in the order in which they are
  /// named; and the set of each contact that a link names.
  std::vector<std::vector<Contact>> joined;
  Contact_numbers linked;
  std::vector<std::size_t> joined_of;
  std::vector<bool> joined_to_earth; ///< by set: one of its contacts is protective earth
  /// In the order of the profile's circuits: a circuit and all circuits in it, each once, itself first.
  std::vector<std::vector<const Circuit*>> circuits_within;
  /// In the order of `components`: the circuits that hold each, directly or through another circuit. Empty
  /// where the profile has no circuits.
  std::vector<std::vector<const Circuit*>> circuits_around;
  std::shared_ptr<const std::vector<Value<Contact>>> contacts; ///< of all components, which view into it

  Contact_index lying;

  std::vector<const Resolved_component*> of_tests; ///< the component of each test, null where there is none
  std::vector<Component_test> component_tests;     ///< in document order
  std::vector<Own_model> own_models;               ///< in document order
  std::vector<Bound_suspect> suspects;             ///< of all faults, in document order
  std::vector<const Test*> deciding;               ///< of all suspects, which view into it
  Id_index component_index, connector_index, circuit_index, test_index, fault_index;
  /// By node: the number in `lying`, + 1, of the contact that a component, a circuit, a supply or a test
  /// names there, so that who asks about many of them need not look them up by their names; else 0.
  std::vector<std::uint32_t> contact_numbers;
  /// Of a contact, see `pin` and `circuit_class`.
  struct Declared {
    const Pin* pin = nullptr;
    const Value<Circuit_class>* circuit_class = nullptr;
  };
  std::vector<Declared> declared; ///< by number

  const Resolved_component* component(Text id) const;
  /// Where among `components` one of them stands.
  std::size_t position_of(const Resolved_component& component) const {
    return static_cast<std::size_t>(&component - components.data());
  }
  /// The component of one of the document's tests, or null.
  const Resolved_component* component_of(const Test& test) const {
    return of_tests[document->profile()->tests.position_of(test)];
  }
  const Connector* connector(Text id) const;
  /// The pin that a contact names, or null.
  const Pin* pin(const Contact& contact) const { return declared_of(contact).pin; }
  const Pin* pin(const Value<Contact>& contact) const { return declared_of(contact).pin; }
  const Circuit* circuit(Text id) const;
  const Test* test(Text id) const;
  const Fault* fault(Text id) const;
  /// The number in `lying` of a contact of a component, a circuit, a supply or a test; else npos.
  std::size_t number_at(Node_id node) const { return std::size_t{contact_numbers[node]} - 1; }
  std::size_t number_of(const Value<Contact>& contact) const { return number_at(contact.node); }
  std::span<const Lying> lying_on(const Value<Contact>& contact) const {
    return lying.at(number_of(contact));
  }
  /// What is declared of a contact: looked up, or known by its number.
  Declared declared_of(const Contact& contact) const;
  Declared declared_of(const Value<Contact>& contact) const {
    const std::size_t number = number_of(contact);
    return number < declared.size() ? declared[number] : declared_of(*contact);
  }
  /// The circuit class of a contact: the pin's, else its connector's; null where neither is known.
  const Value<Circuit_class>* circuit_class(const Contact& contact) const {
    return declared_of(contact).circuit_class;
  }
  const Value<Circuit_class>* circuit_class(const Value<Contact>& contact) const {
    return declared_of(contact).circuit_class;
  }
  /// The nearest source reference at or above a node, by the tree; 0 where there is none.
  Node_id source_reference(Node_id node) const;
  /// Whether there is one, or may be: a misspelt key may have been `source`.
  bool may_have_source(Node_id node) const;
};

Resolved resolve(const Document& document, const Surroundings& surroundings);
Resolved resolve(Document&&, const Surroundings&) = delete; // nothing would keep the document

/// A part that a component names and that is not there.
struct Missing_part {
  enum class Why { no_root, broken, unread, unknown };
  Why why;
  Text id;                 ///< as the component writes it
  std::string_view broken; ///< path of the file that does not read without errors
  std::string_view unread; ///< why one of the files that may hold it could not be read
};
/// The folders, from the root on, below which the parts of a corpus lie; null is one that names none.
std::vector<Text> part_folders(const Corpus* corpus);
/// Nothing where the component names no part, or has it: under its id, or redirected.
std::optional<Missing_part> missing_part(const Resolved& resolved, const Resolved_component& component);

/// "X4.1"
std::string text_of(const Contact& contact);

/// The set of `Resolved::joined` that a contact is in, or null.
const std::vector<Contact>* joined_set(const Resolved& resolved, const Contact& contact);
/// One contact, or two that pin links join.
bool are_joined(const Resolved& resolved, const Contact& a, const Contact& b);
/// By its class; `Named` is a contact, or a value of one.
template <class Named>
bool is_protective_earth(const Resolved& resolved, const Named& contact) {
  const auto* circuit = resolved.circuit_class(contact);
  return circuit != nullptr && **circuit == Circuit_class::protective_earth;
}
/// Protective earth, or joined with it.
bool is_earthed(const Resolved& resolved, const Contact& contact);
bool is_earthed(const Resolved& resolved, const Value<Contact>& contact);

}
