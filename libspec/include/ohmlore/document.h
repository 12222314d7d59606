// A document: its bytes, the located tree over them, and the record decoded from it.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/description.h"
#include "ohmlore/finding.h"

namespace ohmlore {

enum class Node_type : std::uint8_t { null, boolean, number, string, array, object };

/// One value or key of the tree. Nodes lie in document order: the children of a container follow it, in an
/// object each value right after its key; `next` skips a node with all that it holds.
struct Node {
  std::uint32_t begin = 0; ///< first byte; of a string, its quotation mark
  std::uint32_t end = 0;   ///< one past the last byte
  Node_id next = 0;
  Node_id parent = 0;
  std::uint32_t count = 0; ///< members or items; of a string with escapes, its place among the decoded texts
  Node_type type = Node_type::null;
  bool key = false;
  bool escaped = false;
  bool truth = false; ///< of a boolean; of a record that has an unknown key
};
static_assert(sizeof(Node) == 24);

/// Where the reader met a reference or a quantity; in document order.
struct Reference_use {
  Node_id node = 0;
  Target target = Target::none;
};
struct Quantity_use {
  Node_id node = 0;
  Quantity_grammar grammar = Quantity_grammar::quantity;
  Dimensions allowed;
  Range value;        ///< both ends alike, but for a range; of a tolerance nothing
  bool plain = false; ///< surely spelled in the canonical way
};

/// A document that was read: immutable, move-only. Views and records obtained from it live as long as it
/// does, moves included; what it was moved from is only to be assigned to or destroyed. One that was made
/// without being read has no nodes.
class Document {
public:
  Document() = default;
  Document(Document&&) noexcept = default;
  Document& operator=(Document&&) noexcept = default;
  Document(const Document&) = delete;
  Document& operator=(const Document&) = delete;

  /// Name for people: path as given.
  const std::string& name() const { return name_; }
  /// The bytes as read.
  std::string_view text() const { return {text_.data(), text_.empty() ? 0 : text_.size() - 1}; }

  /// The tree; node 0 is a placeholder, node 1 the root (absent where nothing could be parsed).
  std::span<const Node> nodes() const { return nodes_; }
  const Node& node(Node_id id) const { return nodes_[id]; }
  static constexpr Node_id root = 1;
  /// Decoded text of a string or key, which the node must be.
  Text string(Node_id id) const {
    const Node& n = nodes_[id];
    if (n.escaped) return decoded_[n.count];
    return {text_.data() + n.begin + 1, n.end - n.begin - std::size_t{2}};
  }
  /// The bytes of a node, as written.
  Text written(Node_id id) const {
    return text().substr(nodes_[id].begin, nodes_[id].end - nodes_[id].begin);
  }
  /// The key of a member's value, or 0 for an item or the root.
  Node_id key_of(Node_id id) const {
    return id > root && !nodes_[id].key && nodes_[nodes_[id].parent].type == Node_type::object ? id - 1 : 0;
  }
  /// The value of a member, or 0.
  Node_id member(Node_id object, std::string_view key) const;
  /// Whether a record has a member of that key, readable or not, or may have: a key of it that this reader
  /// does not know may be that one, misspelt.
  bool may_state(Node_id record, std::string_view key) const {
    const Node& n = nodes_[record];
    return (n.type == Node_type::object && n.truth) || member(record, key) != 0;
  }
  /// The node that a JSON Pointer names, or 0. A pointer to a missing member gives 0.
  Node_id find(std::string_view pointer) const;
  std::string pointer(Node_id id) const;
  Region region(Node_id id) const { return region(nodes_[id].begin, nodes_[id].end); }
  Region region(std::uint32_t begin, std::uint32_t end) const;

  /// The decoded record: exactly one is set once the root is an object of a known kind. Records hold what
  /// could be decoded: a member with a structural finding is absent.
  const Profile* profile() const { return profile_; }
  const Part* part() const { return part_; }
  const Corpus* corpus() const { return corpus_; }
  /// Its sources, default source and waivers, whatever the kind.
  const Keyed<Source>* sources() const;
  const List<Waiver>* waivers() const;

  std::span<const Reference_use> references() const { return references_; }
  std::span<const Quantity_use> quantities() const { return quantities_; }

  /// The text parsed to its end, so that the tree is whole.
  bool whole() const { return whole_; }
  /// Nothing was left out of the record: a member that is absent is not written.
  bool complete() const { return complete_; }
  /// Minor version that the document claims; 0 where it claims none that can be read.
  unsigned minor() const { return minor_; }

private:
  friend class Tape_builder;
  friend class Decoder;
  friend struct Read_result read_json(std::string name, std::string_view bytes);

  std::string name_;
  std::vector<char> text_; // ends in a NUL; a vector, so that views survive a move
  std::vector<Node> nodes_;
  std::vector<Text> decoded_;
  Arena arena_;
  std::vector<Reference_use> references_;
  std::vector<Quantity_use> quantities_;
  const Profile* profile_ = nullptr;
  const Part* part_ = nullptr;
  const Corpus* corpus_ = nullptr;
  bool whole_ = false;
  bool complete_ = false;
  unsigned minor_ = 0;
};

struct Read_result {
  Document document;
  std::vector<Finding> findings; ///< families json, shape, unit, safety; in document order
};

/// Structural findings of one document that are kept. Of more, the first of the worst says how many are left
/// out.
inline constexpr std::size_t most_findings = 1000;

/// Reads one JSON document: every encoding finding, the first syntax error, or all structural findings. Never
/// throws on bad input (std::bad_alloc apart). `name` is shown in findings. The bytes are copied.
Read_result read_json(std::string name, std::string_view bytes);

/// A finding about a place of a document: region, pointer and source line filled in.
Finding finding_at(const Document& document, std::string_view rule, Severity severity, Node_id node,
                   std::string message);
/// The same about bytes [begin, end) inside `node`.
Finding finding_in(const Document& document, std::string_view rule, Severity severity, Node_id node,
                   std::uint32_t begin, std::uint32_t end, std::string message);
Related related_at(const Document& document, Node_id node, std::string message);

}
