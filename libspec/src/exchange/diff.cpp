#include "ohmlore/diff.h"

#include <algorithm>
#include <deque>
#include <map>
#include <set>
#include <unordered_map>

#include <fmt/format.h>

#include "document/described.h"
#include "document/findings.h"
#include "exchange/diff_bands.h"
#include "exchange/diff_likeness.h"
#include "exchange/diff_lists.h"
#include "exchange/diff_values.h"

namespace ohmlore {
namespace {

std::string within(const std::string& place, std::string_view inner) {
  return place.empty() ? std::string(inner) : fmt::format("{}, {}", place, inner);
}

/// A value in the older document and in the newer one.
using Both = std::pair<Node_id, Node_id>;

class Comparison {
public:
  explicit Comparison(Likeness& likeness) : likeness_(likeness) {}

  void record(const Record& record, Node_id a, Node_id b, const std::string& place);
  std::vector<Change> take();

private:
  void value(const Field& field, const Type& type, Node_id a, Node_id b, const std::string& place);
  void member(const Field& field, Node_id a, Node_id b, const std::string& place);
  void list_of_values(const Field& field, const Type& type, Node_id a, Node_id b, const std::string& place);
  void list_of_records(const Field& field, const Type& type, Node_id a, Node_id b, const std::string& place);
  std::vector<List_item> items_by_identity(const Field& field, const Type& type, const Compared& side,
                                           Node_id list) const;
  void map(const Field& field, const Type& type, Node_id a, Node_id b, const std::string& place);
  std::vector<std::pair<Both, Both>> crossed(const Field& field, const Type& type,
                                             const std::vector<Both>& values) const;
  void exchanged(const Field& field, const Type& type, const std::vector<Both>& both,
                 const std::string& place);
  void strangers(const Record& record, Node_id a, Node_id b, const std::string& place);
  bool band(Node_id a, Node_id b, const std::string& place);

  Change& report(Change_kind kind, Change_weight weight, Node_id a, Node_id b, const std::string& place,
                 std::string message);
  Change_side side(const Document& document, Node_id node) const {
    if (node == 0) return {};
    return {node, document.pointer(node), {document.node(node).begin, document.node(node).end, {}, {}}};
  }
  std::string entry_name(const Document& document, Node_id node) const;

  Likeness& likeness_;
  const Compared &older_ = likeness_.older, &newer_ = likeness_.newer;
  bool explaining_ = false;   ///< inside of what only explains
  std::set<Node_id> settled_; ///< values of the newer document that were spoken of
  std::vector<Change> changes_;
};

Change& Comparison::report(Change_kind kind, Change_weight weight, Node_id a, Node_id b,
                           const std::string& place, std::string message) {
  if (explaining_ && weight == Change_weight::meaning) weight = Change_weight::explanation;
  Change& change = changes_.emplace_back();
  change.weight = weight;
  change.kind = kind;
  change.older = side(older_.document, a);
  change.newer = side(newer_.document, b);
  change.place = place;
  change.message = std::move(message);
  return change;
}

// With lines and columns, in one pass over each text: there may be as many changes as values.
std::vector<Change> Comparison::take() {
  std::vector<Place> older, newer;
  for (Change& change : changes_) {
    if (change.older.node != 0) add_places(change.older.region, older);
    if (change.newer.node != 0) add_places(change.newer.region, newer);
  }
  place(older_.document.text(), std::move(older));
  place(newer_.document.text(), std::move(newer));
  return std::move(changes_);
}

// A few words that let a reader recognise a value: its name or kind, or what it is.
std::string Comparison::entry_name(const Document& document, Node_id node) const {
  if (document.node(node).type == Node_type::object) {
    for (const std::string_view key : {"name", "title", "meaning", "signal", "label", "kind", "component"})
      if (const Node_id at = document.member(node, key);
          at != 0 && document.node(at).type == Node_type::string)
        return shown(document.string(at));
    return {};
  }
  return document.node(node).type == Node_type::array ? std::string() : shown(document.written(node));
}

void Comparison::record(const Record& record, Node_id a, Node_id b, const std::string& place) {
  const int kind_a = kind_of(older_.document, record, a), kind_b = kind_of(newer_.document, record, b);
  const std::size_t before = changes_.size();
  const bool one_band = band(a, b, place);
  std::set<std::string_view> done;
  for (const Field& field : record.fields) {
    const bool in_a = belongs(record, field, kind_a), in_b = belongs(record, field, kind_b);
    // Of another kind: what only one of the two kinds has comes and goes with the kind.
    if (kind_a != kind_b ? !(in_a && in_b) : !in_b) continue;
    if (field.key == "revision" || (one_band && is_limit(field.key)) || !done.insert(field.key).second)
      continue;
    const Node_id old = older_.document.member(a, field.key), now = newer_.document.member(b, field.key);
    if ((old != 0 || now != 0) && settled_.count(now) == 0) member(field, old, now, place);
  }
  strangers(record, a, b, place);
  if (&record != &component_record && &record != &component_type_record) return;
  // Another model, other digits in it, or another part: what that means in ohm. A part that changed speaks
  // for itself.
  const std::string of_older = older_.document.pointer(a), of_newer = newer_.document.pointer(b);
  const auto lies_in_model = [](std::string_view at, std::string_view component) {
    if (!at.starts_with(component)) return false;
    at.remove_prefix(component.size());
    return at.starts_with("/model") || at.starts_with("/part");
  };
  const bool differs = std::any_of(
      changes_.begin() + static_cast<std::ptrdiff_t>(before), changes_.end(), [&](const Change& change) {
        return lies_in_model(change.older.pointer, of_older) || lies_in_model(change.newer.pointer, of_newer);
      });
  if (!differs) return;
  for (const std::string& step : model_steps(older_.resolved, a, newer_.resolved, b))
    report(Change_kind::band, Change_weight::meaning, a, b, place, step);
}

// One member of a record, which one of the two may lack.
void Comparison::member(const Field& field, Node_id a, Node_id b, const std::string& place) {
  const bool before = explaining_;
  explaining_ = explaining_ || explains(field);
  const std::string here = within(place, field.key);
  if (a != 0 && b != 0) {
    value(field, *field.member.type, a, b, field.key == "components" || field.key == "tests" ? place : here);
  } else {
    const bool added = a == 0;
    const std::string name = entry_name(added ? newer_.document : older_.document, added ? b : a);
    report(added ? Change_kind::added : Change_kind::removed, Change_weight::meaning, a, b, here,
           fmt::format("{}{}{}", added ? "added" : "removed", name.empty() ? "" : ": ", name));
  }
  explaining_ = before;
}

// Members that no description knows: x_ keys, and those of a newer minor version.
void Comparison::strangers(const Record& record, Node_id a, Node_id b, const std::string& place) {
  const auto collect = [&](const Document& document, Node_id object) {
    std::map<std::string_view, Node_id> found;
    const int kind = kind_of(document, record, object);
    for (Node_id key = object + 1; key < document.node(object).next; key = document.node(key + 1).next)
      if (field_of(record, kind, document.string(key)) == nullptr)
        found.emplace(document.string(key), key + 1);
    return found;
  };
  const auto old = collect(older_.document, a), now = collect(newer_.document, b);
  std::set<std::string_view> keys;
  for (const auto& entry : old) keys.insert(entry.first);
  for (const auto& entry : now) keys.insert(entry.first);
  for (const std::string_view key : keys) {
    const auto x = old.find(key), y = now.find(key);
    const Node_id left = x == old.end() ? 0 : x->second, right = y == now.end() ? 0 : y->second;
    if (left != 0 && right != 0 &&
        json_meaning(older_.document, left) == json_meaning(newer_.document, right)) {
      if (older_.document.written(left) != newer_.document.written(right))
        report(Change_kind::changed, Change_weight::spelling, left, right, within(place, shown(key)),
               "one JSON value, written in two ways");
      continue;
    }
    const Change_kind kind = left == 0    ? Change_kind::added
                             : right == 0 ? Change_kind::removed
                                          : Change_kind::changed;
    report(kind, key.starts_with("x_") ? Change_weight::explanation : Change_weight::meaning, left, right,
           within(place, shown(key)),
           fmt::format("{}; this program does not know what it means", word_of(kind)));
  }
}

// A row or expectation is spoken of as one band, however it is stated. False where it is none.
bool Comparison::band(Node_id a, Node_id b, const std::string& place) {
  const auto old = older_.bands.find(a), now = newer_.bands.find(b);
  if (old == older_.bands.end() || now == newer_.bands.end()) return false;
  const auto written = [](const Document& document, Node_id record) {
    std::string text;
    for (const std::string_view key : limit_keys)
      if (const Node_id node = document.member(record, key))
        text += fmt::format("{}{} {}", text.empty() ? "" : " ", key, document.string(node));
    return text;
  };
  if (!same_band(old->second, now->second)) {
    report(Change_kind::band, Change_weight::meaning, a, b, place, band_step(old->second, now->second));
  } else if (const std::string x = written(older_.document, a), y = written(newer_.document, b); x != y) {
    report(Change_kind::changed, Change_weight::spelling, a, b, place,
           fmt::format("the same band, {} instead of {}", y, shown(x)));
  }
  return true;
}

void Comparison::value(const Field& field, const Type& type, Node_id a, Node_id b, const std::string& place) {
  if (older_.document.node(a).type != newer_.document.node(b).type) {
    report(Change_kind::changed, Change_weight::meaning, a, b, place, "written as another type of value");
    return;
  }
  switch (type.shape) {
  case Shape::record: record(*type.record, a, b, place); return;
  case Shape::map: map(field, type, a, b, place); return;
  case Shape::list:
    if (type.item->shape == Shape::record)
      list_of_records(field, *type.item, a, b, place);
    else
      list_of_values(field, *type.item, a, b, place);
    return;
  default: break;
  }
  if (refers(field) && likeness_.text_of(field, type, older_, a) == likeness_.text_of(field, type, newer_, b))
    return;
  if (const auto found = value_difference(field, type, older_.document, a, newer_.document, b))
    report(Change_kind::changed, found->spelling ? Change_weight::spelling : Change_weight::meaning, a, b,
           place, found->message);
}

void Comparison::list_of_values(const Field& field, const Type& type, Node_id a, Node_id b,
                                const std::string& place) {
  std::vector<std::string> old, now;
  for (const Node_id item : items_of(older_.document, a))
    old.push_back(likeness_.text_of(field, type, older_, item));
  for (const Node_id item : items_of(newer_.document, b))
    now.push_back(likeness_.text_of(field, type, newer_, item));
  if (old == now) return;
  const auto gone = missing_in(old, now), come = missing_in(now, old);
  if (gone.empty() && come.empty()) {
    report(Change_kind::reordered, order_matters(field) ? Change_weight::meaning : Change_weight::spelling, a,
           b, place, fmt::format("{} becomes {}", listed(old), listed(now)));
    return;
  }
  std::string message;
  if (gone.size() == come.size())
    message = fmt::format("{} becomes {}", listed(gone), listed(come));
  else
    message =
        fmt::format("{}{}{}{}{}", gone.empty() ? "" : "without ", listed(gone),
                    gone.empty() || come.empty() ? "" : "; ", come.empty() ? "" : "with ", listed(come));
  report(Change_kind::changed, Change_weight::meaning, a, b, place, std::move(message));
}

std::vector<List_item> Comparison::items_by_identity(const Field& field, const Type& type,
                                                     const Compared& side, Node_id list) const {
  const Record& record = *type.record;
  const auto keys = identity_of(record);
  std::vector<List_item> found;
  for (const Node_id node : items_of(side.document, list)) {
    List_item item;
    item.node = node;
    item.meaning = likeness_.meaning(field, type, side, node);
    const int kind = kind_of(side.document, record, node);
    for (const std::string_view key : keys) {
      const Node_id at = side.document.member(node, key);
      const Field* known = at == 0 ? nullptr : field_of(record, kind, key);
      if (known == nullptr) continue;
      const std::string text = likeness_.text_of(*known, *known->member.type, side, at);
      item.identity += fmt::format("{}={}\n", key, text);
      if (key != "kind" || item.name.empty()) item.name = text;
    }
    if (keys.empty()) item.identity = item.name = item.meaning = std::to_string(found.size() + 1);
    found.push_back(std::move(item));
  }
  return found;
}

void Comparison::list_of_records(const Field& field, const Type& type, Node_id a, Node_id b,
                                 const std::string& place) {
  const Record& record = *type.record;
  std::vector<List_item> old = items_by_identity(field, type, older_, a),
                         now = items_by_identity(field, type, newer_, b);
  const Matching found = matching(old, now);
  if (found.reordered)
    report(Change_kind::reordered, order_matters(field) ? Change_weight::meaning : Change_weight::spelling, a,
           b, place, reordering(old, now, found));
  const std::string_view noun = &record == &table_row_record ? "row at " : "";
  const auto at = [&](const List_item& item) {
    return within(place, fmt::format("{}{}", noun, shown(item.name)));
  };
  for (const auto& [x, y] : found.pairs) value(field, type, x->node, y->node, at(*x));
  for (const List_item* item : found.gone)
    report(Change_kind::removed, Change_weight::meaning, item->node, 0, at(*item), "removed");
  for (const List_item* item : found.come)
    report(Change_kind::added, Change_weight::meaning, 0, item->node, at(*item), "added");
}

// Of what changed from one value to another, each with the next one that changed the other way round.
std::vector<std::pair<Both, Both>> Comparison::crossed(const Field& field, const Type& type,
                                                       const std::vector<Both>& values) const {
  std::vector<std::pair<Both, Both>> found;
  std::unordered_map<std::string, std::deque<Both>> waiting; // by what it was and what it is
  for (const Both& value : values) {
    const std::string before = likeness_.meaning(field, type, older_, value.first);
    const std::string after = likeness_.meaning(field, type, newer_, value.second);
    if (before == after) continue;
    std::deque<Both>& others = waiting[joined({after, before})];
    if (others.empty()) {
      waiting[joined({before, after})].push_back(value);
    } else {
      found.emplace_back(others.front(), value);
      others.pop_front();
    }
  }
  return found;
}

// Entries that took each other's place, whole or in one member: two plugs, two wires.
void Comparison::exchanged(const Field& field, const Type& type, const std::vector<Both>& both,
                           const std::string& place) {
  const auto id = [&](Node_id now) {
    return std::string(newer_.document.string(newer_.document.key_of(now)));
  };
  const auto between = [&](Node_id one, Node_id other) {
    return within(place, fmt::format("{} and {}", id(one), id(other)));
  };
  for (const auto& [one, other] : crossed(field, type, both)) {
    report(Change_kind::exchanged, Change_weight::meaning, one.first, one.second,
           between(one.second, other.second), "exchanged");
    settled_.insert({one.second, other.second});
  }
  if (type.shape != Shape::record) return;
  for (const Field& inner : type.record->fields) {
    const Type& held = *inner.member.type;
    if (explains(inner) || held.shape == Shape::word || held.shape == Shape::boolean ||
        held.shape == Shape::integer)
      continue;
    std::vector<Both> members;
    for (const auto& [old, now] : both) {
      const Node_id x = older_.document.member(old, inner.key), y = newer_.document.member(now, inner.key);
      if (x != 0 && y != 0 && settled_.count(now) == 0 &&
          belongs(*type.record, inner, kind_of(newer_.document, *type.record, now)))
        members.emplace_back(x, y);
    }
    for (const auto& [one, other] : crossed(inner, held, members)) {
      report(Change_kind::exchanged, Change_weight::meaning, one.first, one.second,
             between(newer_.document.node(one.second).parent, newer_.document.node(other.second).parent),
             fmt::format("{} exchanged", inner.key));
      settled_.insert({one.second, other.second});
    }
  }
}

void Comparison::map(const Field& field, const Type& type, Node_id a, Node_id b, const std::string& place) {
  const Type& item = *type.item;
  likeness_.find_renamed(field, type, a, b); // of an inner map; those of the document are known
  std::vector<Both> both;
  for (const Node_id key : keys_of(newer_.document, b))
    if (const Node_id old = older_.document.member(a, newer_.document.string(key)))
      both.emplace_back(old, key + 1);
  exchanged(field, item, both, place);
  for (const auto& [old, now] : both) {
    if (settled_.count(now)) continue;
    const std::string here = within(place, newer_.document.string(newer_.document.key_of(now)));
    value(field, item, old, now, here);
  }
  for (const Node_id key : keys_of(older_.document, a)) {
    if (newer_.document.member(b, older_.document.string(key)) != 0) continue;
    const std::string here = within(place, older_.document.string(key));
    if (const Node_id renamed = likeness_.new_key(key)) {
      const Text id = newer_.document.string(renamed);
      report(Change_kind::renamed, Change_weight::meaning, key + 1, renamed + 1, here,
             fmt::format("renamed to {}", id));
      value(field, item, key + 1, renamed + 1, within(place, id));
      continue;
    }
    const std::string name = entry_name(older_.document, key + 1);
    report(Change_kind::removed, Change_weight::meaning, key + 1, 0, here,
           fmt::format("removed{}{}", name.empty() ? "" : ": ", name));
  }
  for (const Node_id key : keys_of(newer_.document, b)) {
    const Text id = newer_.document.string(key);
    if (likeness_.old_key(key) != 0 || older_.document.member(a, id) != 0) continue;
    const std::string name = entry_name(newer_.document, key + 1);
    report(Change_kind::added, Change_weight::meaning, 0, key + 1, within(place, id),
           fmt::format("added{}{}", name.empty() ? "" : ": ", name));
  }
}

struct Identity {
  std::string id;
  std::int64_t revision = 0;
};

Identity identity_of(const Document& document) {
  if (const Profile* profile = document.profile()) return {std::string(*profile->id), *profile->revision};
  if (const Part* part = document.part()) return {std::string(*part->id), *part->revision};
  return {};
}

Document_diff one_sided(const Document& document, bool added) {
  Document_diff diff;
  const Identity identity = identity_of(document);
  diff.kind = kind_of(document);
  diff.id = identity.id;
  (added ? diff.newer_file : diff.older_file) = document.name();
  (added ? diff.newer_revision : diff.older_revision) = identity.revision;
  Change& change = diff.changes.emplace_back();
  change.kind = added ? Change_kind::added : Change_kind::removed;
  (added ? change.newer : change.older) = {Document::root, "", document.region(Document::root)};
  change.message = fmt::format("the whole {} is {}", word_of(diff.kind), added ? "new" : "gone");
  return diff;
}

}

#define OHMLORE_WORD(name, doc) {#name, doc},
static constexpr Word weight_list[] = {OHMLORE_CHANGE_WEIGHTS(OHMLORE_WORD)};
static constexpr Word kind_list[] = {OHMLORE_CHANGE_KINDS(OHMLORE_WORD)};
constinit const Enumeration Change_weight_words = {"change_weight", weight_list};
constinit const Enumeration Change_kind_words = {"change_kind", kind_list};

std::size_t Document_diff::count(Change_weight weight) const {
  return static_cast<std::size_t>(
      std::count_if(changes.begin(), changes.end(), [&](const Change& c) { return c.weight == weight; }));
}

bool Document_diff::revision_must_grow() const {
  return older_revision > 0 && newer_revision > 0 && newer_revision <= older_revision &&
         count(Change_weight::meaning) > 0;
}

Document_diff diff_documents(const Document& older, const Surroundings& older_surroundings,
                             const Document& newer, const Surroundings& newer_surroundings) {
  Document_diff diff;
  const Identity old = identity_of(older), now = identity_of(newer);
  diff.kind = kind_of(newer);
  diff.id = now.id;
  diff.older_file = older.name();
  diff.newer_file = newer.name();
  diff.older_revision = old.revision;
  diff.newer_revision = now.revision;
  const Resolved old_resolved = resolve(older, older_surroundings),
                 now_resolved = resolve(newer, newer_surroundings);
  const Bands old_bands = bands_of(old_resolved), now_bands = bands_of(now_resolved);
  Likeness likeness({older, old_resolved, old_bands}, {newer, now_resolved, now_bands});
  likeness.find_renamed(document_record(diff.kind));
  Comparison comparison(likeness);
  comparison.record(document_record(diff.kind), Document::root, Document::root, {});
  diff.changes = comparison.take();
  return diff;
}

Document_diff added_document(const Document& newer) { return one_sided(newer, true); }
Document_diff removed_document(const Document& older) { return one_sided(older, false); }

}
