// What may be written at the cursor.
#include <algorithm>

#include <fmt/format.h>

#include "document/described.h"
#include "exchange/json_escapes.h"
#include "lint/contacts.h"
#include "lint/modes.h"
#include "publish/exchange_names.h"
#include "serve/cursor.h"
#include "serve/features.h"
#include "serve/places.h"
#include "text/small_letters.h"

namespace ohmlore::serve {
namespace {

// Kinds of items of LSP 3.17 (CompletionItemKind).
enum Kind : unsigned { a_property = 10, a_value = 12, a_reference = 18, an_enum_member = 20 };

struct Item {
  std::string label, detail;
  std::string doc;     ///< may have line breaks: safe to be shown as it is
  std::string text;    // what is written, quotation marks included
  std::string snippet; // the same with places to fill in; may be empty
  Kind kind = a_value;
  bool required = false;
};

// Further ones are found by typing on.
constexpr std::size_t most_offered = 1000;

std::string in_quotes(std::string_view text) { return fmt::format("\"{}\"", with_escapes(text)); }

// "\$schema"
std::string in_snippet(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '$' || c == '}' || c == '\\') out += '\\';
    out += c;
  }
  return out;
}

std::string_view place_to_fill_in(const Type& type) {
  switch (type.shape) {
  case Shape::boolean:
  case Shape::integer: return "$1";
  case Shape::list: return "[$1]";
  case Shape::record:
  case Shape::map: return "{$1}";
  default: return "\"$1\"";
  }
}

// ---- keys

// A key, as it is written with a place for its value, unless one follows.
Item with_value(Item item, const Type& type, const Cursor& cursor) {
  if (cursor.has_colon) return item;
  const std::string_view comma = cursor.needs_comma ? "," : "";
  item.snippet = fmt::format("{}: {}{}", in_snippet(item.text), place_to_fill_in(type), comma);
  item.text += ": ";
  return item;
}

Item key_item(const Field& field, int kind, const Cursor& cursor) {
  Item item{std::string(field.key), {}, {}, in_quotes(field.key), {}, a_property, is_required(field, kind)};
  item.detail = item.required ? "required" : "";
  item.doc = fmt::format("{}\n\nFor example {}", field.doc, field.example);
  if (field.constant.empty() || cursor.has_colon)
    return with_value(std::move(item), *field.member.type, cursor);
  item.text += fmt::format(": {}{}", in_quotes(field.constant), cursor.needs_comma ? "," : "");
  return item;
}

std::vector<Item> keys_of_record(const Document& document, Node_id object, const Record& record,
                                 const Cursor& cursor) {
  std::vector<Item> items;
  const int kind = kind_of(document, record, object);
  for (const Field& field : record.fields)
    if (belongs(record, field, kind) && document.member(object, field.key) == 0)
      items.push_back(key_item(field, kind, cursor));
  std::stable_partition(items.begin(), items.end(), [](const Item& item) { return item.required; });
  return items;
}

// ---- values

void add_ids(std::vector<Item>& items, const Document& document, Node_id map) {
  if (map == 0) return;
  for (Node_id key = map + 1; key < document.node(map).next; key = document.node(key + 1).next) {
    if (!document.node(key).key) return; // no object
    items.push_back({std::string(document.string(key)),
                     std::string(text_member(document, key + 1, "name").value_or("")),
                     {},
                     in_quotes(document.string(key)),
                     {},
                     a_reference});
  }
}

void add_contacts(std::vector<Item>& items, const Document& document) {
  const Node_id connectors = document.member(Document::root, target_map(Target::connector));
  if (connectors == 0 || document.node(connectors).type != Node_type::object) return;
  for (Node_id key = connectors + 1; key < document.node(connectors).next;
       key = document.node(key + 1).next) {
    const Node_id pins = document.member(key + 1, "pins");
    if (pins == 0 || document.node(pins).type != Node_type::object) continue;
    for (Node_id pin = pins + 1; pin < document.node(pins).next; pin = document.node(pin + 1).next) {
      const std::string contact = fmt::format("{}.{}", document.string(key), document.string(pin));
      items.push_back({contact,
                       std::string(text_member(document, pin + 1, "signal").value_or("")),
                       {},
                       in_quotes(contact),
                       {},
                       a_reference});
    }
  }
}

// Those of the component's kind; all where it has none that is known.
void add_parts(std::vector<Item>& items, const Document& document, Node_id placed,
               const Surroundings& around) {
  if (around.parts == nullptr) return;
  const auto stated = text_member(document, placed, "kind");
  const auto wanted = stated ? enumerator_of<Component_kind>(*stated) : std::nullopt;
  for (const auto& [id, part] : *around.parts) {
    const Component_type& component = part.part()->component;
    if (wanted && component.kind && *component.kind != *wanted) continue;
    const std::string kind = component.kind ? std::string(word_of(*component.kind)) : "";
    items.push_back(
        {id, kind, component.name ? printable(*component.name) : "", in_quotes(id), {}, a_reference});
  }
}

// That a test or a suspect names, or null.
const Resolved_component* component_named(const Resolved& resolved, Node_id record) {
  const auto id = text_member(*resolved.document, record, "component");
  return id ? resolved.component(*id) : nullptr;
}

// The states of the component whose test this is.
void add_states(std::vector<Item>& items, const Document& document, Node_id test,
                const Surroundings& around) {
  const Resolved resolved = resolve(document, around);
  const Resolved_component* component = component_named(resolved, test);
  if (component == nullptr) return;
  for (const auto& state : *component->get(&Component_type::states))
    items.push_back({std::string(state.id),
                     state.value ? std::string(word_of(*state.value)) : "",
                     {},
                     in_quotes(state.id),
                     {},
                     a_reference});
}

void add_references(std::vector<Item>& items, const Document& document, Node_id node, Target target,
                    const Surroundings& around) {
  switch (target) {
  case Target::none: return;
  case Target::contact: return add_contacts(items, document);
  case Target::part: return add_parts(items, document, document.node(node).parent, around);
  case Target::state: return add_states(items, document, document.node(node).parent, around);
  case Target::rule:
    for (const Rule_entry& rule : all_rules())
      items.push_back({std::string(rule.slug),
                       std::string(word_of(rule.rule->severity)),
                       std::string(rule.rule->summary),
                       in_quotes(rule.slug),
                       {},
                       a_reference});
    return;
  default:
    const Node_id map = document.member(Document::root, target_map(target));
    if (map != 0 && document.node(map).type == Node_type::object) add_ids(items, document, map);
  }
}

std::vector<Item> keys(const Document& document, Node_id object, const Surroundings& around,
                       const Cursor& cursor) {
  if (const Record* record = record_at(document, object))
    return keys_of_record(document, object, *record, cursor);
  std::vector<Item> items;
  const Described map = described(document, object);
  if (map.type == nullptr || map.type->shape != Shape::map) return items;
  add_references(items, document, object, map.field->key_target, around);
  std::erase_if(items, [&](const Item& item) { return document.member(object, item.label) != 0; });
  for (Item& item : items) item = with_value(std::move(item), *map.type->item, cursor);
  return items;
}

// Modes that no component of its kind can have. In a circuit, a test excludes those of the other elements
// too.
void leave_out_impossible(std::vector<Item>& items, const Document& document, Node_id record,
                          const Surroundings& around) {
  const Resolved resolved = resolve(document, around);
  const Resolved_component* component = component_named(resolved, record);
  if (component == nullptr || !rules::circuits_of(resolved, *component).empty()) return;
  std::erase_if(items, [&](const Item& item) {
    const auto mode = enumerator_of<Mode>(item.label);
    return mode && rules::likelihood(*component, *mode) == rules::Likelihood::impossible;
  });
}

std::vector<Text> texts_in(const Document& document, Node_id list) {
  std::vector<Text> texts;
  if (document.node(list).type != Node_type::array) return texts;
  for (Node_id one = list + 1; one < document.node(list).next; one = document.node(one).next)
    if (document.node(one).type == Node_type::string) texts.push_back(document.string(one));
  return texts;
}

bool is_one_of(const std::vector<Text>& texts, const Item& item) {
  return std::find(texts.begin(), texts.end(), item.label) != texts.end();
}

std::vector<Item> values(const Document& document, Node_id node, const Surroundings& around) {
  std::vector<Item> items;
  const Described here = described(document, node);
  if (here.type == nullptr) return items;
  if (!here.field->constant.empty() && !here.is_entry)
    return {{std::string(here.field->constant),
             {},
             std::string(here.field->doc),
             in_quotes(here.field->constant),
             {},
             a_value}};
  if (here.type->words != nullptr)
    for (const Word& word : here.type->words->words)
      items.push_back(
          {std::string(word.text), {}, std::string(word.doc), in_quotes(word.text), {}, an_enum_member});
  if (here.type->shape == Shape::boolean)
    for (const char* word : {"true", "false"}) items.push_back({word, {}, {}, word, {}, a_value});
  if (here.type->shape == Shape::text || here.type->shape == Shape::contact)
    add_references(items, document, node, here.field->target, around);
  if (const Node_id list = document.node(node).parent; document.node(list).type == Node_type::array) {
    // What stands there already is not meant once more.
    std::erase_if(items,
                  [texts = texts_in(document, list)](const Item& item) { return is_one_of(texts, item); });
    if (here.type->words == enumeration(std::type_identity<Mode>{}))
      leave_out_impossible(items, document, document.node(list).parent, around);
  }
  if (here.field->key == "positive") { // a lead goes to each of the probes
    const std::vector<Text> probes =
        texts_in(document, document.member(document.node(node).parent, "probes"));
    if (probes.size() == 2) std::erase_if(items, [&](const Item& item) { return !is_one_of(probes, item); });
  }
  return items;
}

// ---- the answer

bool begins_with(std::string_view text, std::string_view typed) {
  return small_letters(text).starts_with(small_letters(typed));
}

void write_items(const Asked& asked, std::vector<Item> items, const Cursor& cursor, std::size_t offset) {
  Json_writer& out = asked.out;
  const std::string_view text = asked.document.text;
  const std::size_t typed_from = std::min(cursor.begin + (cursor.quoted ? 1 : 0), offset);
  const std::string_view typed = text.substr(typed_from, offset - typed_from);
  const bool too_many = items.size() > most_offered;
  if (too_many) {
    std::erase_if(items, [&](const Item& item) { return !begins_with(item.label, typed); });
    items.resize(std::min(items.size(), most_offered));
  }
  const Lines_of_text lines(text);
  std::size_t place = 0;
  out.StartObject();
  truth(out, "isIncomplete", too_many);
  list(out, "items", items, [&](const Item& item) {
    const bool fills_in = asked.client.snippets && !item.snippet.empty();
    const std::string& written = fills_in ? item.snippet : item.text;
    // What is typed from where the edit begins is what editors compare the label with, so a quotation mark
    // that is typed stays; but for what is written without.
    const bool keeps_mark = cursor.quoted && written.starts_with('"');
    member(out, "label", printable(item.label));
    number(out, "kind", item.kind);
    if (!item.detail.empty()) member(out, "detail", printable(item.detail));
    if (!item.doc.empty()) member(out, "documentation", item.doc);
    member(out, "sortText", fmt::format("{:04}", place++));
    if (cursor.quoted && !keeps_mark) member(out, "filterText", in_quotes(item.label));
    number(out, "insertTextFormat", fills_in ? 2 : 1);
    object(out, "textEdit", [&] {
      key(out, "range");
      write_range(out, lines, cursor.begin + keeps_mark, cursor.end, asked.client.encoding);
      member(out, "newText", std::string_view(written).substr(keeps_mark));
    });
  });
  out.EndObject();
}

}

void write_completion(const Asked& asked, std::size_t offset) {
  const auto cursor = cursor_in(asked.document.text, offset);
  if (!cursor) return void(asked.out.Null());
  const Surroundings around = asked.workspace.analysis(asked.document).around;
  const Read_result read = read_json(asked.document.name, cursor->mended);
  const Document& document = read.document;
  const Node_id node = node_at(document, cursor->place);
  if (node == 0 || document.node(node).begin != cursor->place || document.node(node).key != cursor->is_key)
    return void(asked.out.Null());
  if (cursor->is_key)
    return write_items(asked, keys(document, document.node(node).parent, around, *cursor), *cursor, offset);
  std::vector<Item> items = values(document, node, around);
  if (cursor->needs_comma)
    for (Item& item : items) item.text += ',';
  write_items(asked, std::move(items), *cursor, offset);
}

}
