// What is one thing in two documents, however it is spelt and whatever its id is now.
#pragma once

#include <map>
#include <span>
#include <string>
#include <vector>

#include "exchange/diff_bands.h"

namespace ohmlore {

/// One of the two documents that are compared.
struct Compared {
  const Document& document;
  const Resolved& resolved;
  const Bands& bands;
};

/// By which of its keys an item of a list is known again, or an entry of a map that has another id; nothing
/// for a record whose items are known by their place.
std::span<const std::string_view> identity_of(const Record& record);

std::vector<Node_id> items_of(const Document& document, Node_id list);
std::vector<Node_id> keys_of(const Document& document, Node_id object);

/// True for a field whose texts refer to an entry of the document.
bool refers(const Field& field);

class Likeness {
public:
  Likeness(const Compared& older_document, const Compared& newer_document)
      : older(older_document), newer(newer_document) {}

  const Compared older, newer; ///< each `side` below is one of these two themselves

  /// Finds the entries of the document's maps that have another id: before anything is compared, as what
  /// refers to an entry may stand above it.
  void find_renamed(const Record& document);
  /// Likewise for the map `a` of the older document and `b` of the newer one.
  void find_renamed(const Field& field, const Type& type, Node_id a, Node_id b);
  /// The newer key of an entry that has another id there, by its older one; else 0.
  Node_id new_key(Node_id key) const { return other(now_, key); }
  /// And the older key, by the newer.
  Node_id old_key(Node_id key) const { return other(once_, key); }

  /// A value without members, in one spelling; a reference of the older document as the newer one would write
  /// it.
  std::string text_of(const Field& field, const Type& type, const Compared& side, Node_id node) const;
  /// A value as a text that all its spellings share, and no other value: so that one among many is looked up
  /// and not compared with each.
  std::string meaning(const Field& field, const Type& type, const Compared& side, Node_id node) const;

private:
  using Keys = std::map<Node_id, Node_id>;
  static Node_id other(const Keys& keys, Node_id key) {
    const auto found = keys.find(key);
    return found == keys.end() ? 0 : found->second;
  }
  std::string meaning(const Record& record, const Compared& side, Node_id node) const;
  std::string identity(const Type& type, const Compared& side, Node_id node) const;

  bool by_likeness_ = false; ///< any id that is gone may be any that is new
  Keys now_;                 ///< of entries that have another id: the newer key, by the older
  Keys once_;                ///< and the older, by the newer
};

}
