#include "exchange/diff_likeness.h"

#include <algorithm>

#include <fmt/format.h>

#include "document/described.h"
#include "exchange/diff_values.h"
#include "publish/exchange_names.h"

namespace ohmlore {
namespace {

// The id in a reference, and the map of the document that has it: of a contact that of its connector, of a
// pointer that of the entry that it leads into. Empty: it refers to nothing here.
struct Referred {
  std::string_view map, id;
};

Referred referred(const Field& field, std::string_view text) {
  if (field.target == Target::contact) return {target_map(Target::connector), text.substr(0, text.find('.'))};
  if (field.form != Form::pointer) return {target_map(field.target), text};
  const std::size_t id = text.find('/', 1);
  if (id == text.npos) return {};
  return {text.substr(1, id - 1), text.substr(id + 1, text.find('/', id + 1) - id - 1)};
}

}

std::span<const std::string_view> identity_of(const Record& record) {
  static constexpr std::string_view row[] = {"at"}, pair[] = {"from", "to"},
                                    suspect[] = {"kind", "component", "connector", "cause"},
                                    element[] = {"kind", "component", "circuit"},
                                    supply[] = {"kind", "isolate_at"}, hazard[] = {"kind", "component"},
                                    waiver[] = {"rule", "at"}, connector[] = {"label"},
                                    component[] = {"kind", "name"}, circuit[] = {"between"},
                                    test[] = {"component", "probes"}, fault[] = {"display"};
  if (&record == &table_row_record) return row;
  if (&record == &terminal_pair_record) return pair;
  if (&record == &suspect_record) return suspect;
  if (&record == &element_record) return element;
  if (&record == &supply_record) return supply;
  if (&record == &hazard_record) return hazard;
  if (&record == &waiver_record) return waiver;
  if (&record == &connector_record) return connector;
  if (&record == &component_record) return component;
  if (&record == &circuit_record) return circuit;
  if (&record == &test_record) return test;
  if (&record == &fault_record) return fault;
  return {};
}

std::vector<Node_id> items_of(const Document& document, Node_id list) {
  std::vector<Node_id> items;
  for (Node_id item = list + 1; item < document.node(list).next; item = document.node(item).next)
    items.push_back(item);
  return items;
}

std::vector<Node_id> keys_of(const Document& document, Node_id object) {
  std::vector<Node_id> keys;
  for (Node_id key = object + 1; key < document.node(object).next; key = document.node(key + 1).next)
    keys.push_back(key);
  return keys;
}

bool refers(const Field& field) { return !referred(field, "/connectors/X1").map.empty(); }

std::string Likeness::text_of(const Field& field, const Type& type, const Compared& side,
                              Node_id node) const {
  std::string text = canonical_text(field, type, side.document, node);
  if (!by_likeness_ && now_.empty()) return text;
  const Referred to = referred(field, text);
  if (to.map.empty()) return text;
  const auto entry = [&](const Document& document) {
    const Node_id entries = document.member(Document::root, to.map);
    return entries == 0 ? 0 : document.member(entries, to.id);
  };
  const bool is_older = &side == &older;
  const auto& renamed = is_older ? now_ : once_;
  const Node_id here = entry(side.document);
  const auto known = here == 0 ? renamed.end() : renamed.find(side.document.key_of(here));
  const auto with = [&](std::string_view other) {
    return text.replace(static_cast<std::size_t>(to.id.data() - text.data()), to.id.size(), other);
  };
  if (known != renamed.end()) return is_older ? with(newer.document.string(known->second)) : text;
  return by_likeness_ && entry(is_older ? newer.document : older.document) == 0 ? with("?") : text;
}

std::string Likeness::meaning(const Field& field, const Type& type, const Compared& side,
                              Node_id node) const {
  std::vector<std::string> held;
  switch (type.shape) {
  case Shape::record: return meaning(*type.record, side, node);
  case Shape::map:
    for (Node_id key = node + 1; key < side.document.node(node).next; key = side.document.node(key + 1).next)
      held.push_back(
          joined({std::string(side.document.string(key)), meaning(field, *type.item, side, key + 1)}));
    break;
  case Shape::list:
    for (const Node_id item : items_of(side.document, node))
      held.push_back(meaning(field, *type.item, side, item));
    if (order_matters(field) ||
        (type.item->shape == Shape::record && identity_of(*type.item->record).empty()))
      return joined(held);
    break;
  default:
    return refers(field) ? text_of(field, type, side, node) : value_meaning(field, type, side.document, node);
  }
  std::sort(held.begin(), held.end());
  return joined(held);
}

std::string Likeness::meaning(const Record& record, const Compared& side, Node_id node) const {
  std::vector<std::string> held;
  const auto band = side.bands.find(node);
  if (band != side.bands.end()) held.push_back(band_meaning(band->second));
  const int kind = kind_of(side.document, record, node);
  for (Node_id key = node + 1; key < side.document.node(node).next; key = side.document.node(key + 1).next) {
    const Text name = side.document.string(key);
    if (name == "revision" || (band != side.bands.end() && is_limit(name))) continue;
    const Field* field = field_of(record, kind, name);
    held.push_back(
        joined({std::string(name), field == nullptr ? json_meaning(side.document, key + 1)
                                                    : meaning(*field, *field->member.type, side, key + 1)}));
  }
  std::sort(held.begin(), held.end());
  return joined(held);
}

// What an entry is known again by, also where something else in it changed; empty where it does not have all.
std::string Likeness::identity(const Type& type, const Compared& side, Node_id node) const {
  if (type.shape != Shape::record) return {};
  const int kind = kind_of(side.document, *type.record, node);
  std::vector<std::string> held;
  for (const std::string_view key : identity_of(*type.record)) {
    const Node_id at = side.document.member(node, key);
    const Field* field = at == 0 ? nullptr : field_of(*type.record, kind, key);
    if (field == nullptr) return {};
    held.push_back(meaning(*field, *field->member.type, side, at));
  }
  return joined(held);
}

// Entries that have another id: those that are alike else, in the order of the documents, then those that are
// known again, where no other could be meant.
void Likeness::find_renamed(const Field& field, const Type& type, Node_id a, Node_id b) {
  by_likeness_ = true;
  for (const bool whole : {true, false}) {
    const auto text = [&](const Compared& side, Node_id key) {
      return whole ? meaning(field, *type.item, side, key + 1) : identity(*type.item, side, key + 1);
    };
    std::map<std::string, std::pair<std::vector<Node_id>, std::vector<Node_id>>> alike; // keys: gone, come
    for (const Node_id key : keys_of(newer.document, b))
      if (once_.count(key) == 0 && older.document.member(a, newer.document.string(key)) == 0)
        alike[text(newer, key)].second.push_back(key);
    if (alike.empty()) break;
    for (const Node_id key : keys_of(older.document, a))
      if (now_.count(key) == 0 && newer.document.member(b, older.document.string(key)) == 0)
        alike[text(older, key)].first.push_back(key);
    for (const auto& [likeness, keys] : alike) {
      const auto& [gone, come] = keys;
      if (!whole && (likeness.empty() || gone.size() != 1 || come.size() != 1)) continue;
      for (std::size_t i = 0; i < std::min(gone.size(), come.size()); ++i) {
        now_.emplace(gone[i], come[i]);
        once_.emplace(come[i], gone[i]);
      }
    }
  }
  by_likeness_ = false;
}

void Likeness::find_renamed(const Record& document) {
  for (const Field& field : document.fields) {
    const Node_id a = older.document.member(Document::root, field.key),
                  b = newer.document.member(Document::root, field.key);
    if (field.member.type->shape == Shape::map && a != 0 && b != 0)
      find_renamed(field, *field.member.type, a, b);
  }
}

}
