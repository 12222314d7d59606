#include "document/described.h"

namespace ohmlore {

int kind_of(const Document& document, const Record& record, Node_id object) {
  if (record.kinds == nullptr) return -1;
  const Node_id kind = document.member(object, "kind");
  if (kind == 0 || document.node(kind).type != Node_type::string) return -1;
  const Text word = document.string(kind);
  for (std::size_t i = 0; i < record.kinds->words.size(); ++i)
    if (record.kinds->words[i].text == word) return static_cast<int>(i);
  return -1;
}

bool belongs(const Record& record, const Field& field, int kind) {
  if (record.kinds == nullptr) return true;
  return kind >= 0 ? field.in(static_cast<unsigned>(kind)) : field.kinds == every_kind;
}

const Field* field_of(const Record& record, int kind, std::string_view key, std::size_t& hint) {
  // Documents mostly keep the order of the description, so the search starts after the last hit.
  const std::size_t n = record.fields.size();
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t at = hint + i < n ? hint + i : hint + i - n;
    const Field& field = record.fields[at];
    // Comparing the first letter here saves most calls of memcmp.
    if (field.key.size() != key.size() || field.key[0] != key[0] || field.key != key) continue;
    if (!belongs(record, field, kind)) continue;
    hint = at + 1 < n ? at + 1 : 0;
    return &field;
  }
  return nullptr;
}

}
