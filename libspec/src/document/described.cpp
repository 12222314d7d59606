#include "document/described.h"

namespace ohmlore {

// The key of a member behind the `kind` of a record that states another one; 0 where none does.
static Node_id another_behind(const Document& document, Node_id object, Node_id kind) {
  constexpr std::string_view name = "kind";
  const Node_id end = document.node(object).next;
  for (Node_id key = document.node(kind).next; key < end; key = document.node(key + 1).next) {
    const Node& n = document.node(key);
    const bool may_be = n.escaped || n.end - n.begin == name.size() + 2; // and two quotation marks
    if (may_be && document.string(key) == name && document.written(key + 1) != document.written(kind))
      return key;
  }
  return 0;
}

Document_kind kind_of(const Document& document) {
  return document.profile() ? Document_kind::profile
         : document.part()  ? Document_kind::part
                            : Document_kind::corpus;
}

Node_id another_kind(const Document& document, Node_id object) {
  const Node_id kind = document.member(object, "kind");
  return kind == 0 ? 0 : another_behind(document, object, kind);
}

int kind_of(const Document& document, const Record& record, Node_id object) {
  if (record.kinds == nullptr) return -1;
  const Node_id kind = document.member(object, "kind");
  if (kind == 0 || document.node(kind).type != Node_type::string ||
      another_behind(document, object, kind) != 0)
    return -1;
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
