// Where a suspect lies as seen from the two leads of a test.
#pragma once

#include <optional>
#include <vector>

#include "lint/contacts.h"
#include "ohmlore/bands.h"

namespace ohmlore::rules {

enum class Place : std::uint8_t {
  elsewhere,   ///< no current of the meter flows through it
  across,      ///< it alone
  one_of_many, ///< one of several paths of it, as with a motor of three terminals
  in_series,   ///< one after others, which all must conduct
  in_parallel, ///< beside others
  to_earth,    ///< one lead on it, the other on earth
  somewhere    ///< not known
};

/// A test's two leads. What is asked of them is found at the first question, and kept for the others.
struct Path {
  const Resolved& resolved;
  const Test& test;
  bool known = false; ///< both leads
  Contact first, second;
  mutable std::optional<bool> earthed_at_first, earthed_at_second;
  mutable std::optional<std::optional<Interval>> by_own_model; ///< what the model of its component gives
  mutable std::optional<bool> shared;   ///< another part than its component lies on the same two contacts
  mutable std::optional<bool> leads_on; ///< a part on either lead has a third contact

  Path(const Resolved& all, const Test& t) : resolved(all), test(t) {
    known = has_both_ends(t.probes);
    if (!known) return;
    first = *t.probes[0];
    second = *t.probes[1];
  }
  bool first_earthed() const {
    if (!earthed_at_first) earthed_at_first = known && is_earthed(resolved, test.probes[0]);
    return *earthed_at_first;
  }
  bool second_earthed() const {
    if (!earthed_at_second) earthed_at_second = known && is_earthed(resolved, test.probes[1]);
    return *earthed_at_second;
  }
  bool to_earth() const { return first_earthed() || second_earthed(); }
  // A withdrawn plug is off what the board joins.
  bool withdrawn(const Contact& lead) const { return test.unplug && *test.unplug == lead.connector; }
  bool at(const Contact& lead, const Contact& contact) const {
    return withdrawn(lead) ? lead == contact : are_joined(resolved, lead, contact);
  }
  bool at_first(const Contact& contact) const { return at(first, contact); }
  bool at_second(const Contact& contact) const { return at(second, contact); }
  bool on(Text connector) const {
    return known && (first.connector == connector || second.connector == connector);
  }
};

/// A suspected component, and where it can be reached.
struct Suspected_part {
  const Resolved_component& component;
  std::size_t terminals;
  Reach reached;
  const std::vector<const Circuit*>& circuits;

  Suspected_part(const Resolved& resolved, const Resolved_component& part)
      : component(part), terminals(part.contacts.size()), reached(resolved, part),
        circuits(circuits_of(resolved, part)) {}
};

/// Of a component.
Place place_of(const Path& path, const Suspected_part& part);
/// Of the wires of a connector. `alone`: the fault names one pair of its contacts only, so that it is the
/// suspected one.
Place place_of(const Path& path, const Suspect& suspect, bool alone);

/// The circuit whose ends the two leads touch; null where none holds the part.
const Circuit* chain_between(const Path& path, const Suspected_part& part);

/// What a model of the component states between the two leads, where these lie on one pair of its `pairs`.
std::optional<Interval> pair_interval(const Path& path, const Resolved_component& component,
                                      const Resistance_model& model);

}
