// The tree beside the descriptions: which field of which kind a member is.
#pragma once

#include "ohmlore/document.h"

namespace ohmlore {

/// The kind of a document that was read without errors.
Document_kind kind_of(const Document& document);

/// The key of a second `kind` of an object, which says another than the first; else 0.
Node_id another_kind(const Document& document, Node_id object);

/// The place of a variant's `kind` among the words of its record; -1 where the object has none that is known,
/// or two, or the record is no variant.
int kind_of(const Document& document, const Record& record, Node_id object);

/// True where a field belongs to a kind of its record. Without a known kind only those of every kind do.
bool belongs(const Record& record, const Field& field, int kind);

/// The field that a key names, or null.
const Field* field_of(const Record& record, int kind, std::string_view key);

}
