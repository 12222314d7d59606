// Whether two documents say the same, compared member by member over their trees.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <bit>
#include <map>
#include <string>
#include <vector>

#include "ohmlore/document.h"

namespace ohmlore::test {

/// What a quantity comes to: its numbers as bits, its dimensions and forms.
inline std::vector<std::uint64_t> meaning_of(const Document& document, const Quantity_use& use) {
  std::vector<std::uint64_t> out;
  const auto number = [&](double value) { out.push_back(std::bit_cast<std::uint64_t>(value)); };
  const auto quantity = [&](const Quantity& q) {
    number(q.si);
    number(q.half_digit);
    out.push_back(static_cast<std::uint64_t>(q.dimension));
    out.push_back(static_cast<std::uint64_t>(q.form));
  };
  const Text text = document.string(use.node);
  switch (use.grammar) {
  case Quantity_grammar::quantity: quantity(parse_quantity(text, use.allowed).value.value()); break;
  case Quantity_grammar::tolerance: {
    const Tolerance tolerance = parse_tolerance(text, use.allowed).value.value();
    number(tolerance.minus);
    number(tolerance.plus);
    out.push_back(static_cast<std::uint64_t>(tolerance.dimension));
    break;
  }
  case Quantity_grammar::range: {
    const Range range = parse_range(text, use.allowed).value.value();
    quantity(range.low);
    quantity(range.high);
    out.push_back(range.single ? 1 : 0);
    break;
  }
  }
  return out;
}

/// Compares two trees: members of objects by key, items of lists in order; texts by their characters; numbers
/// by their digits; quantities by what they come to, bit for bit. Reports where they differ.
class Same_meaning {
public:
  Same_meaning(const Document& a, const Document& b) : a_(a), b_(b) {
    for (const Quantity_use& use : a.quantities()) of_a_[use.node] = &use;
    for (const Quantity_use& use : b.quantities()) of_b_[use.node] = &use;
  }
  /// The order of entries must be kept where keys are ids; of records it need not.
  bool compare() const { return compare(Document::root, Document::root); }

private:
  bool differ(Node_id at, std::string_view what) const {
    ADD_FAILURE() << what << " at " << a_.pointer(at);
    return false;
  }
  bool compare(Node_id x, Node_id y) const {
    const Node &m = a_.node(x), &n = b_.node(y);
    if (m.type != n.type) return differ(x, "another type");
    switch (m.type) {
    case Node_type::null: return true;
    case Node_type::boolean: return m.truth == n.truth || differ(x, "another truth value");
    case Node_type::number: {
      const auto plain = [](Text digits) { return digits == "-0" ? Text("0") : digits; };
      return plain(a_.written(x)) == plain(b_.written(y)) || differ(x, "another number");
    }
    case Node_type::string: {
      const auto left = of_a_.find(x), right = of_b_.find(y);
      if ((left == of_a_.end()) != (right == of_b_.end())) return differ(x, "no quantity any more");
      if (left == of_a_.end()) return a_.string(x) == b_.string(y) || differ(x, "another text");
      return meaning_of(a_, *left->second) == meaning_of(b_, *right->second) || differ(x, "another quantity");
    }
    case Node_type::array: {
      if (m.count != n.count) return differ(x, "another number of items");
      for (Node_id i = x + 1, k = y + 1; i < m.next; i = a_.node(i).next, k = b_.node(k).next)
        if (!compare(i, k)) return false;
      return true;
    }
    case Node_type::object: {
      if (m.count != n.count) return differ(x, "another number of members");
      for (Node_id key = x + 1; key < m.next; key = a_.node(key + 1).next) {
        const Node_id other = b_.member(y, a_.string(key));
        if (other == 0) return differ(key + 1, "a member is lost");
        if (!compare(key + 1, other)) return false;
      }
      return true;
    }
    }
    return false;
  }

  const Document &a_, &b_;
  std::map<Node_id, const Quantity_use*> of_a_, of_b_;
};

/// The ids of every map of a profile, and the keys of everything that is free for others, in their order.
inline std::string order_of_ids(const Document& document) {
  std::string out;
  const auto keys = [&](Node_id object) {
    const Node& n = document.node(object);
    for (Node_id key = object + 1; key < n.next; key = document.node(key + 1).next)
      out += std::string(document.string(key)) + ' ';
    out += '\n';
  };
  std::map<std::string, Node_id> maps; // sorted by pointer: the records themselves may have moved
  for (Node_id node = Document::root + 1; node < document.nodes().size(); ++node) {
    if (document.node(node).key || document.node(node).type != Node_type::object) continue;
    const std::string pointer = document.pointer(node);
    const std::string_view name = std::string_view(pointer).substr(pointer.rfind('/') + 1);
    const std::string_view maps_of_ids[] = {"sources", "connectors", "components", "circuits",
                                            "tests",   "faults",     "pins",       "terminals",
                                            "states",  "severities", "profiles",   "parts"};
    const bool keyed =
        std::find(std::begin(maps_of_ids), std::end(maps_of_ids), name) != std::end(maps_of_ids);
    if (keyed || pointer.find("/x_") != std::string::npos) maps[pointer] = node;
  }
  for (const auto& [pointer, node] : maps) {
    out += pointer + ": ";
    keys(node);
  }
  return out;
}

}
