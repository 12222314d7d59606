// What lies on the harness, and what of it is seen from a withdrawn plug, as a network.
#pragma once

#include <span>
#include <vector>

#include "lint/rule.h"
#include "ohmlore/networks.h"

namespace ohmlore::rules {

/// One thing with two ends: a component, a circuit, or what nobody knows (neither of them).
struct Branch {
  std::size_t a = 0, b = 0; ///< nodes of Wiring
  const Resolved_component* component = nullptr;
  const Keyed<Circuit>::Entry* circuit = nullptr;
  bool joins(std::size_t one, std::size_t other) const {
    return (a == one && b == other) || (a == other && b == one);
  }
};

/// Everything that a profile says lies on the harness. A part with more than two contacts is an unknown path
/// from each to a node in its middle.
struct Wiring {
  /// A contact, or the middle of a part.
  struct Node {
    const Contact* contact = nullptr;
    const Resolved_component* middle_of = nullptr;
    bool leaves_anyway = false; ///< to earth or to a supply
  };
  std::vector<Node> nodes;                ///< nothing is known of node 0
  std::vector<std::uint32_t> of_contacts; ///< by their numbers in Resolved; 0 where nothing has an end
  std::vector<Branch> branches;
  std::vector<std::size_t> begins, ends_at; ///< the branches at a node: `ends_at` from its begin to the next

  std::span<const std::size_t> branches_at(std::size_t node) const {
    return std::span(ends_at).subspan(begins[node], begins[node + 1] - begins[node]);
  }
};
Wiring wiring_of(const Resolved& resolved);

/// The branches that a current between two nodes can flow through while one plug is withdrawn: all but
/// dead ends. What leaves the plug, to the board, to earth or to a supply, meets all else that does so in
/// node 0, over paths that nobody knows. Empty where nothing joins the two; where more than `most_on_the_way`
/// branches do, not all: no harness has so many, and the work on a network grows fast.
inline constexpr std::size_t most_on_the_way = 100;
std::vector<Branch> on_the_way(const Wiring& wiring, Text plug, std::size_t from, std::size_t to);

/// What a branch has at a temperature, each number as wide as it can be meant: 0 Ω to infinity where that is
/// not known. A table is asked at the stated temperature itself, a formula half a digit beside it as well.
Interval ohm_of(const Resolved& resolved, const Branch& branch, const Value<Range>& at);

/// Declared linear, all that is in it.
bool is_linear(const Resolved& resolved, const Branch& branch);
/// The same resistance at every temperature, with its tolerance, all of it read.
bool is_steady(const Resolved& resolved, const Branch& branch);

/// True where a test that reads the wiring sees its own component and nothing else: it is all that lies on
/// one of the two contacts.
bool lies_alone(const Resolved& resolved, const Test& test);

/// Looking into a withdrawn plug with nothing else undone, so that what the profile says lies there is read.
bool reads_the_wiring(const Document& document, const Test& test);

}
