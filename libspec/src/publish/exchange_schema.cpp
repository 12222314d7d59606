// The XML Schema (XSD 1.0) of the exchange form, from the descriptions.
//
// Version 1.0 of XSD has no conditional types, so a variant is an element named by its kind, chosen with
// xs:choice. Members stand in the order of the descriptions: xs:all could not hold the extension at the end.
#include <algorithm>
#include <initializer_list>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <pugixml.hpp>

#include "ohmlore/publish.h"
#include "publish/exchange_names.h"
#include "publish/phrases.h"
#include "publish/records.h"
#include "text/xml_text.h"

namespace ohmlore {
namespace {

using pugi::xml_node;
using Attributes = std::initializer_list<std::pair<const char*, std::string_view>>;

constexpr const char* id_pattern = "[A-Za-z0-9][A-Za-z0-9_\\-]{0,63}";
constexpr const char* contact_pattern = "[A-Za-z0-9][A-Za-z0-9_\\-]{0,63}\\.[A-Za-z0-9][A-Za-z0-9_\\-]{0,63}";
constexpr const char* text_pattern = "[ -~\xC2\xA0-\xED\x9F\xBF\xEE\x80\x80-\xEF\xBF\xBD"
                                     "\xF0\x90\x80\x80-\xF4\x8F\xBF\xBF]+";
constexpr const char* number_pattern = "-?(0|[1-9][0-9]*)(\\.[0-9]+)?([eE][+\\-]?[0-9]+)?"; // RFC 8259

xml_node add(xml_node parent, const char* tag, Attributes attributes = {}) {
  xml_node node = add_element(parent, tag);
  for (const auto& [name, value] : attributes) add_attribute(node, name, std::string(value).c_str());
  return node;
}

void document_with(xml_node parent, std::string_view words) {
  add_text(add(add(parent, "xs:annotation"), "xs:documentation"), std::string(words).c_str());
}

struct Path {
  Target target;
  std::string path;
};

class Xsd_writer {
public:
  std::string publish() {
    add_declaration(document_);
    must_be_made(document_.append_child(pugi::node_comment)
                     .set_value(" Written by `ohmlore schema --write-spec`; not edited by hand. "));
    schema_ = add(document_, "xs:schema",
                  {{"xmlns:xs", "http://www.w3.org/2001/XMLSchema"},
                   {"xmlns", xml_namespace},
                   {"xmlns:o", xml_namespace}, // XPath 1.0 needs a prefix
                   {"targetNamespace", xml_namespace},
                   {"elementFormDefault", "qualified"}});
    std::vector<const Record*> records;
    for (const Document_kind kind : {Document_kind::profile, Document_kind::part, Document_kind::corpus}) {
      root(document_record(kind));
      for (const Record* record : records_of(document_record(kind)))
        if (std::find(records.begin(), records.end(), record) == records.end()) records.push_back(record);
    }
    for (const Record* record : records) types_of(*record);
    enumerations();
    texts();
    quantities();
    extension();

    return xml_text(document_);
  }

private:
  // ---- documents, with what must be found once, and what must be found

  void root(const Record& record) {
    const xml_node element = add(schema_, "xs:element", {{"name", record.name}});
    document_with(element, record.doc);
    const xml_node type = add(element, "xs:complexType");
    members(type, record, -1);
    add(type, "xs:attribute", {{"name", "format"}, {"use", "required"}, {"fixed", format_tag}});

    std::vector<Path> references;
    collect_references(record, "", references);
    const auto key = [&](std::string_view name, std::string_view path, std::string_view attribute) {
      const xml_node node = add(element, "xs:key", {{"name", fmt::format("{}_{}", record.name, name)}});
      add(node, "xs:selector", {{"xpath", path}});
      add(node, "xs:field", {{"xpath", fmt::format("@{}", attribute)}});
    };
    const auto refer = [&](std::string_view name, Target target) {
      std::string paths;
      for (const Path& reference : references)
        if (reference.target == target) paths += (paths.empty() ? "" : "|") + reference.path;
      if (paths.empty()) return;
      const xml_node node = add(element, "xs:keyref",
                                {{"name", fmt::format("{}_references_to_{}", record.name, name)},
                                 {"refer", fmt::format("o:{}_{}", record.name, name)}});
      add(node, "xs:selector", {{"xpath", paths}});
      add(node, "xs:field", {{"xpath", "."}});
    };
    for (const Field& field : record.fields) {
      const Target target = target_of(field);
      if (target == Target::none) continue;
      key(field.key, fmt::format("o:{}/*", field.key), "id");
      refer(field.key, target);
      if (target != Target::connector) continue;
      key("pins", "o:connectors/o:connector/o:pins/o:pin", "contact");
      refer("pins", Target::contact);
    }
  }

  // The kind of reference that leads to a map of the root.
  static Target target_of(const Field& field) {
    for (const Target target :
         {Target::component, Target::connector, Target::circuit, Target::test, Target::source})
      if (field.member.type->shape == Shape::map && target_map(target) == field.key) return target;
    return Target::none;
  }

  static void collect_references(const Record& record, const std::string& at, std::vector<Path>& found) {
    for (const Field& field : record.fields) {
      std::string path = fmt::format("{}o:{}", at, element_name(field));
      const Type* type = field.member.type;
      for (; type->item != nullptr; type = type->item)
        path += type->item->record != nullptr && type->item->record->kinds != nullptr
                    ? "/*"
                    : fmt::format("/o:{}", item_name(*type));
      if (type->record != nullptr) {
        if (type->record->kinds != nullptr && type == field.member.type) path += "/*";
        collect_references(*type->record, path + "/", found);
      } else if (field.target != Target::none &&
                 std::none_of(found.begin(), found.end(), [&](const Path& p) { return p.path == path; })) {
        found.push_back({field.target, path});
      }
    }
  }

  // ---- records

  void types_of(const Record& record) {
    for (const Document_kind kind : {Document_kind::profile, Document_kind::part, Document_kind::corpus})
      if (&record == &document_record(kind)) return; // in its element
    if (record.kinds == nullptr) {
      const xml_node type = add(schema_, "xs:complexType", {{"name", record.name}});
      document_with(type, record.doc);
      members(type, record, -1);
      return;
    }
    common_members(record);
    const auto kinds = static_cast<int>(record.kinds->words.size());
    for (int kind = 0; kind < kinds; ++kind) {
      const Word& word = record.kinds->words[static_cast<std::size_t>(kind)];
      const xml_node type = add(schema_, "xs:complexType", {{"name", kind_type(record, word)}});
      document_with(type, word.doc);
      members(type, record, kind);
    }
  }

  static std::string kind_type(const Record& record, const Word& kind) {
    return fmt::format("{}_{}", record.name, kind.text);
  }

  static bool is_common(const Record& record, const Field& field) {
    return record.kinds != nullptr && field.kinds == every_kind && field.required_by == 0;
  }

  // Members that stand beside each other in every kind of a variant are described once.
  void common_members(const Record& record) {
    xml_node sequence;
    for (const Field& field : record.fields.subspan(1)) {
      if (!is_common(record, field)) {
        sequence = {};
        continue;
      }
      if (!sequence)
        sequence = add(add(schema_, "xs:group", {{"name", group_name(record, field)}}), "xs:sequence");
      member(sequence, record, field, field.required);
    }
  }

  static std::string group_name(const Record& record, const Field& first) {
    return fmt::format("{}_from_{}", record.name, first.key);
  }

  void members(xml_node type, const Record& record, int kind) {
    const xml_node sequence = add(type, "xs:sequence");
    bool in_group = false;
    for (const Field& field : record.fields) {
      const bool is_kind = kind >= 0 && &field == record.fields.data();
      if (is_kind || is_in_root_element(field)) continue;
      if (is_common(record, field)) {
        if (!in_group) add(sequence, "xs:group", {{"ref", group_name(record, field)}});
        in_group = true;
        continue;
      }
      in_group = false;
      if (kind >= 0 && !field.in(static_cast<unsigned>(kind))) continue;
      member(sequence, record, field,
             kind >= 0 ? field.required_in(static_cast<unsigned>(kind)) : field.required_always());
    }
    add(sequence, "xs:element", {{"name", extension_name}, {"type", extension_name}, {"minOccurs", "0"}});
  }

  void member(xml_node sequence, const Record& record, const Field& field, bool required) {
    xml_node element = add(sequence, "xs:element", {{"name", element_name(field)}});
    if (!required) add_attribute(element, "minOccurs", "0");
    const Type& type = *field.member.type;
    if (type.item == nullptr && !(type.record != nullptr && type.record->kinds != nullptr))
      value_type(element, field, type);
    document_with(element, field.doc);
    if (type.shape == Shape::integer) {
      integer_type(element, field);
    } else if (type.item != nullptr) {
      add_items(add(element, "xs:complexType"), field, type);
      if (type.shape == Shape::map) unique_entries(element, record, field, type);
    } else if (type.record != nullptr && type.record->kinds != nullptr) {
      choice_of_kinds(add(add(element, "xs:complexType"), "xs:choice"), *type.record, {});
    }
  }

  // ---- values

  void choice_of_kinds(xml_node choice, const Record& record, std::string_view key) {
    for (const Word& word : record.kinds->words) {
      const xml_node element = add(choice, "xs:element", {{"name", word.text}});
      keyed(element, kind_type(record, word), key);
    }
  }

  // The type of an element that may carry a key.
  void keyed(xml_node element, std::string_view type, std::string_view key, bool simple = false) {
    if (key.empty()) {
      add_attribute(element, "type", std::string(type).c_str());
      return;
    }
    const xml_node content =
        add(add(element, "xs:complexType"), simple ? "xs:simpleContent" : "xs:complexContent");
    const xml_node extended = add(content, "xs:extension", {{"base", type}});
    add(extended, "xs:attribute",
        {{"name", key}, {"type", key == "contact" ? "contact" : "id"}, {"use", "required"}});
  }

  void add_items(xml_node type, const Field& field, const Type& container) {
    const Type& item = *container.item;
    const std::string_view key =
        container.shape == Shape::map ? key_attribute(container) : std::string_view();
    const bool variant = item.record != nullptr && item.record->kinds != nullptr;
    xml_node held;
    if (variant) {
      held = add(type, "xs:choice");
      choice_of_kinds(held, *item.record, key);
    } else {
      held = add(add(type, "xs:sequence"), "xs:element", {{"name", item_name(container)}});
      if (item.record != nullptr)
        keyed(held, item.record->name, key);
      else if (key.empty())
        value_type(held, field, item);
      else
        keyed(held, simple_type(field, item), key, true);
    }
    add_attribute(held, "minOccurs", std::to_string(field.limits.least).c_str());
    add_attribute(held, "maxOccurs", std::to_string(most_of(field)).c_str());
  }

  void unique_entries(xml_node element, const Record& record, const Field& field, const Type& map) {
    if (target_of(field) != Target::none || key_attribute(map) == "contact") return; // a key of the document
    const xml_node node =
        add(element, "xs:unique", {{"name", fmt::format("{}_{}_once", record.name, field.key)}});
    add(node, "xs:selector", {{"xpath", "*"}});
    add(node, "xs:field", {{"xpath", fmt::format("@{}", key_attribute(map))}});
  }

  void value_type(xml_node element, const Field& field, const Type& type) {
    if (type.shape == Shape::integer) return; // its limits stand inside
    add_attribute(element, "type",
                  type.record != nullptr ? std::string(type.record->name).c_str()
                                         : simple_type(field, type).c_str());
  }

  void integer_type(xml_node element, const Field& field) {
    const xml_node restriction =
        add(add(element, "xs:simpleType"), "xs:restriction", {{"base", "xs:integer"}});
    add(restriction, "xs:minInclusive", {{"value", std::to_string(field.limits.least)}});
    add(restriction, "xs:maxInclusive", {{"value", std::to_string(field.limits.most)}});
    add(restriction, "xs:pattern", {{"value", "0|-?[1-9][0-9]*"}});
  }

  std::string simple_type(const Field& field, const Type& type) {
    switch (type.shape) {
    case Shape::boolean: return "boolean";
    case Shape::contact: return "contact";
    case Shape::quantity: return "quantity";
    case Shape::tolerance: return "tolerance";
    case Shape::range: return field.single ? "quantity" : "range";
    case Shape::word: used_words_[type.words->name] = type.words; return std::string(type.words->name);
    default: break;
    }
    switch (field.form) {
    case Form::id: return "id";
    case Form::date: return "date";
    case Form::country: return "country";
    case Form::pointer: return "pointer";
    case Form::path: return "path";
    case Form::version: return "version";
    default: return "text";
    }
  }

  xml_node simple(const char* name, const char* base, std::initializer_list<const char*> patterns) {
    const xml_node type = add(schema_, "xs:simpleType", {{"name", name}});
    const xml_node restriction = add(type, "xs:restriction", {{"base", base}});
    for (const char* pattern : patterns) add(restriction, "xs:pattern", {{"value", pattern}});
    return restriction;
  }

  void enumerations() {
    for (const auto& [name, words] : used_words_) {
      const xml_node type = add(schema_, "xs:simpleType", {{"name", name}});
      const xml_node restriction = add(type, "xs:restriction", {{"base", "xs:string"}});
      for (const Word& word : words->words)
        document_with(add(restriction, "xs:enumeration", {{"value", word.text}}), word.doc);
    }
  }

  void texts() {
    const xml_node text = simple("text", "xs:string", {text_pattern});
    add(text, "xs:maxLength", {{"value", std::to_string(most_text)}});
    simple("id", "xs:string", {id_pattern});
    simple("contact", "xs:string", {contact_pattern});
    simple("date", "xs:string",
           {"[0-9]{4}-(0[1-9]|1[0-2])", "[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])"});
    simple("country", "xs:string", {"[A-Z][A-Z]"});
    simple("pointer", "text", {"/[\\s\\S]*"});
    simple("path", "text", {"[A-Za-z0-9_][A-Za-z0-9_.\\-]*(/[A-Za-z0-9_\\-][A-Za-z0-9_.\\-]*)*/?"});
    simple("version", "xs:string", {"(0|[1-9][0-9]{0,3})\\.(0|[1-9][0-9]{0,3})"});
    const xml_node boolean = simple("boolean", "xs:token", {});
    for (const char* word : {"true", "false"}) add(boolean, "xs:enumeration", {{"value", word}});
  }

  // As written; the attributes repeat it as numbers, for readers without the grammar of quantities.
  void quantities() {
    const auto quantity = [&](const char* name, std::initializer_list<const char*> numbers,
                              std::string_view words) {
      const xml_node type = add(schema_, "xs:complexType", {{"name", name}});
      document_with(type, words);
      const xml_node extended = add(add(type, "xs:simpleContent"), "xs:extension", {{"base", "text"}});
      for (const char* number : numbers)
        add(extended, "xs:attribute", {{"name", number}, {"type", "number"}});
      add(extended, "xs:attribute", {{"name", "unit"}, {"type", "unit"}});
    };
    simple("number", "xs:double", {number_pattern});
    quantity("quantity", {"si"}, "A quantity as written, and its value in the SI unit.");
    quantity("tolerance", {"minus", "plus"},
             "A tolerance as written, and both sides as magnitudes in the SI unit; of unit 1: relative.");
    quantity("range", {"low", "high"}, "One quantity or two as written, and both ends in the SI unit.");
    const xml_node unit = simple("unit", "xs:token", {});
    std::vector<std::string_view> known;
    for (unsigned d = 0; d <= static_cast<unsigned>(Dimension::ratio); ++d)
      known.push_back(si_unit(static_cast<Dimension>(d)));
    std::sort(known.begin(), known.end());
    known.erase(std::unique(known.begin(), known.end()), known.end());
    for (const std::string_view symbol : known) add(unit, "xs:enumeration", {{"value", symbol}});
  }

  // ---- members of others: any JSON value, in elements named as those of the function json-to-xml
  // (W3C XPath and XQuery Functions 3.1, section 17.5.3)

  void extension() {
    const xml_node type = add(schema_, "xs:complexType", {{"name", extension_name}});
    document_with(type, "Members that are free for others: their keys begin with x_.");
    const xml_node choice = add(type, "xs:choice", {{"minOccurs", "1"}, {"maxOccurs", "unbounded"}});
    json_values(choice, "own_key");
    simple("own_key", "xs:string", {"x_[\\s\\S]*"});
    json_type("json_map", "key");
    json_type("json_array", nullptr);
    simple("json_key", "xs:string", {});
    simple("json_number", "xs:token", {number_pattern});
    add(simple("json_null", "xs:string", {}), "xs:length", {{"value", "0"}});
    const xml_node text = add(schema_, "xs:complexType", {{"name", "json_string"}});
    document_with(text, "Where `escaped` is true, the text is written with the escapes of JSON: it holds "
                        "characters that XML cannot carry.");
    const xml_node extended = add(add(text, "xs:simpleContent"), "xs:extension", {{"base", "xs:string"}});
    add(extended, "xs:attribute", {{"name", "escaped"}, {"type", "boolean"}});
  }

  void json_type(const char* name, const char* key) {
    const xml_node type = add(schema_, "xs:complexType", {{"name", name}});
    json_values(add(type, "xs:choice", {{"minOccurs", "0"}, {"maxOccurs", "unbounded"}}),
                key == nullptr ? nullptr : "json_key");
  }

  static void json_values(xml_node choice, const char* key_type) {
    const auto value = [&](const char* name, const char* type, bool simple) {
      xml_node element = add(choice, "xs:element", {{"name", name}});
      if (key_type == nullptr) {
        add_attribute(element, "type", type);
        return;
      }
      const xml_node content =
          add(add(element, "xs:complexType"), simple ? "xs:simpleContent" : "xs:complexContent");
      const xml_node extended = add(content, "xs:extension", {{"base", type}});
      add(extended, "xs:attribute", {{"name", "key"}, {"type", key_type}, {"use", "required"}});
      add(extended, "xs:attribute", {{"name", "escaped-key"}, {"type", "boolean"}});
    };
    value("map", "json_map", false);
    value("array", "json_array", false);
    value("string", "json_string", true);
    value("number", "json_number", true);
    value("boolean", "boolean", true);
    value("null", "json_null", true);
  }

  pugi::xml_document document_;
  xml_node schema_;
  std::map<std::string_view, const Enumeration*> used_words_;
};

}

std::string xml_schema() { return Xsd_writer().publish(); }

}
