// What lies on which contact: the walks that the rules of pins, faults and networks share.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "ohmlore/resolve.h"

namespace ohmlore::rules {

/// "X4.1 and X4.2"
std::string listed(const std::vector<Contact>& contacts);

bool holds(const std::vector<Contact>& contacts, const Contact& contact);

/// A circuit and all circuits in it, each once, so that a loop ends.
const std::vector<const Circuit*>& circuits_in(const Resolved& resolved, const Circuit& circuit);

/// Of two circuits between the same ends the one that holds the other, else the first; which may be null.
const Circuit* outer_of(const Resolved& resolved, const Circuit* first, const Circuit& second);

/// The circuits that hold a component, directly or through another circuit.
const std::vector<const Circuit*>& circuits_of(const Resolved& resolved, const Resolved_component& component);
const std::vector<const Circuit*>& circuits_of(const Resolved& resolved, Text component);

/// Where a component can be reached: its contacts, the ends of the circuits that hold it, and what the board
/// joins with them.
class Reach {
public:
  Reach(const Resolved& resolved, const Resolved_component& component);
  bool empty() const { return ends_.empty(); }
  bool holds(const Contact& contact) const;
  /// Without what the board joins, as where the plug of the contact is withdrawn.
  bool holds_off_board(const Contact& contact) const;
  /// Each once.
  std::vector<Contact> contacts() const;

private:
  const Resolved* resolved_;
  std::vector<Contact> ends_;
  std::vector<const std::vector<Contact>*> sets_; ///< of `Resolved::joined`: those of the ends, sorted
};

/// True where a list names two contacts, and both could be read.
inline bool has_both_ends(std::span<const Value<Contact>> ends) {
  return ends.size() == 2 && ends[0] && ends[1];
}

/// The end of a two-ended record that is not `here`; null where it has not exactly two ends.
const Contact* far_end(const List<Value<Contact>>& between, const Contact& here);

/// The pair of terminals for which a model of the component states what is read between the two contacts;
/// null where there is none, or where its terminals lie nowhere, as a part's do.
const Terminal_pair* pair_between(const Resolved_component& component, const Resistance_model& model,
                                  const Contact& a, const Contact& b);

/// True where both leads of a test lie on contacts of the component itself.
bool on_own_contacts(const Test& test, const Resolved_component& component);

/// Which contact of a switch a test reads: that of its `states`, or of a changeover, by the names of its
/// terminals, the normally closed one, or from throw to throw, where none ever closes.
enum class Throw : std::uint8_t { as_stated, normally_closed, none };
Throw throw_between_probes(const Resolved_component& component, const Test& test);

/// The state between the probes in the condition that a test names; empty where nothing says it. The `states`
/// of a changeover are those to its normally open contact: to the other one the reverse.
std::optional<Contact_state> state_between_probes(const Resolved_component& component, const Test& test);

/// No more stands there than may be touched.
constexpr bool is_extra_low(Circuit_class circuit) {
  return circuit == Circuit_class::selv || circuit == Circuit_class::pelv;
}

/// True where a lead of a test lies on a contact of that circuit class.
bool touches(const Resolved& resolved, const Test& test, Circuit_class circuit);

/// True where both say for which models they hold, and the two have none in common.
bool models_apart(const Applies_when& a, const Applies_when& b);

/// The same of models or software, whose versions are compared as they are written.
bool never_together(const Applies_when& a, const Applies_when& b);
/// The same where one is held against many.
class Never_together {
public:
  explicit Never_together(const Applies_when& when);
  bool operator()(const Applies_when& other) const;

private:
  std::optional<Id_index> models_, software_; // where they are absent or not read whole: all there are
};

/// True where two lists name the same two contacts, in either order.
bool same_ends(std::span<const Value<Contact>> a, std::span<const Value<Contact>> b);

}
