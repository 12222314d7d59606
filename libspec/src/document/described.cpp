#include "document/described.h"

namespace ohmlore {

int kind_of(const Document& document, const Record& record, Node_id object) {
  if (record.kinds == nullptr) return -1;
  const Node_id kind = document.member(object, "kind");
  if (kind == 0 || document.node(kind).type != Node_type::string) return -1;
  const Text word = document.string(kind);
  for (std::size_t i = 0; i < record.kinds->words.size(); ++i)
    if (same_name(record.kinds->words[i].text, word)) return static_cast<int>(i);
  return -1;
}

bool belongs(const Record& record, const Field& field, int kind) {
  if (record.kinds == nullptr) return true;
  return kind >= 0 ? field.in(static_cast<unsigned>(kind)) : field.kinds == every_kind;
}

const Field* field_of(const Record& record, int kind, std::string_view key) {
  return record.keys.find(record.fields, key,
                          [&](const Field& field) { return belongs(record, field, kind); });
}

}
