// What a place of a document is to the format.
#pragma once

#include "ohmlore/lint.h"

namespace ohmlore::serve {

/// The innermost key or value at a byte, or 0; one that ends there counts.
Node_id node_at(const Document& document, std::size_t offset);

/// What a member of an object says, where that is a text.
std::optional<Text> text_member(const Document& document, Node_id object, std::string_view key);

/// Which record a document is described by: what its `kind` says, else its name.
const Record& record_of(const Document& document);

/// What the descriptions say of a value, or of the value of a key. `field` is that of the member, or of the
/// list or map that it is an item of; null where the format does not know it.
struct Described {
  const Record* around = nullptr; ///< that `field` is of
  int kind = -1;                  ///< of that record, as kind_of has it
  const Field* field = nullptr;
  const Type* type = nullptr; ///< of the value; null: not known
  bool is_entry = false;      ///< of a map: its key is no word of the format
};
Described described(const Document& document, Node_id node);

/// Whether every record of its kind has that field.
inline bool is_required(const Field& field, int kind) {
  return kind >= 0 ? field.required_in(static_cast<unsigned>(kind)) : field.required;
}

/// The record that an object is, else null.
const Record* record_at(const Document& document, Node_id object);

/// What a reference means: what `target` and the text at `node` name. Null `document`: it leads nowhere.
struct Declared {
  const Document* document = nullptr;
  Node_id key = 0; ///< the key, or of a part its id
};
Declared declared(const Resolved& resolved, Node_id node, Target target);

/// The target of a value, or of a key of a map, that is a reference by its description, else none.
Target target_of(const Document& document, Node_id node);

}
