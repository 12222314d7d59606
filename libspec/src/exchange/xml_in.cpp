// From XML to the text that the reader reads. Elements are looked up in the descriptions; what is wrong with
// values the reader says.
#include <algorithm>

#include <fmt/format.h>

#include "document/described.h"
#include "document/findings.h"
#include "document/format_version.h"
#include "document/syntax.h"
#include "document/wording.h"
#include "exchange/json_escapes.h"
#include "exchange/numbers.h"
#include "exchange/origin_text.h"
#include "exchange/xml_syntax.h"
#include "publish/exchange_names.h"
#include "text/cut.h"

namespace ohmlore {
namespace {

using pugi::xml_node;

constexpr std::string_view blanks = " \t\r\n";

class Xml_reader {
public:
  Xml_reader(Xml_source& source, std::vector<Source_bytes>& places) : source_(source), places_(places) {}

  void document(xml_node root) {
    const std::string_view kind = Xml_source::local(root.name());
    const auto known = enumerator_of<Document_kind>(kind);
    if (!known) {
      source_.report(
          "xml-structure", source_.place(root),
          fmt::format("the root element is `{}`; it is `profile`, `part` or `corpus`", printable(kind)));
      return;
    }
    const std::uint32_t here = at(source_.place(root));
    json_.open_object(here);
    if (const pugi::xml_attribute format = attribute(root, "format")) {
      const std::uint32_t place = at(source_.place(format));
      const std::string tag = source_.text(format);
      const auto version = format_version(tag);
      const Format_version own = own_format_version();
      newer_ = version && version->major == own.major && version->minor > own.minor;
      json_.key("format", place);
      json_.text(tag, place);
    }
    json_.key("kind", here);
    json_.text(kind, here);
    only_attributes(root, {"format"});
    members(root, document_record(*known), -1, {});
    json_.close_object();
  }

  Origin_text& json() { return json_; }

private:
  // ---- places and names

  std::uint32_t at(Source_bytes bytes) {
    places_.push_back(bytes);
    return static_cast<std::uint32_t>(places_.size() - 1);
  }
  std::uint32_t at(xml_node element) { return at(source_.place(element)); }

  static std::string_view name_of(xml_node element) { return Xml_source::local(element.name()); }

  pugi::xml_attribute attribute(xml_node element, std::string_view name) {
    for (const pugi::xml_attribute attribute : element.attributes())
      if (name == attribute.name()) return attribute;
    return {};
  }

  void only_attributes(xml_node element, std::initializer_list<std::string_view> known) {
    for (const pugi::xml_attribute attribute : element.attributes()) {
      const std::string_view name = attribute.name();
      if (name == "xmlns" || name.find(':') != std::string_view::npos) continue; // looked at before
      if (std::find(known.begin(), known.end(), name) != known.end()) continue;
      source_.report("xml-structure", source_.place(attribute),
                     fmt::format("`{}` has no attribute `{}`", name_of(element), printable(name)));
    }
  }

  // The elements in an element that holds no text.
  std::vector<xml_node> elements(xml_node parent) {
    std::vector<xml_node> found;
    for (const xml_node child : parent.children()) {
      if (child.type() == pugi::node_element) found.push_back(child);
      const bool text = child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata;
      const std::string_view words = text ? trimmed(child.value(), blanks) : std::string_view();
      if (child.type() == pugi::node_cdata || !words.empty())
        source_.report("xml-structure", words.empty() ? source_.place(parent) : source_.place_of(words),
                       fmt::format("text stands in `{}`, which holds elements", name_of(parent)));
    }
    return found;
  }

  // The text of an element that holds nothing else.
  std::string text(xml_node element) {
    for (const xml_node child : element.children())
      if (child.type() == pugi::node_element) {
        source_.report("xml-structure", source_.place(child),
                       fmt::format("`{}` stands in `{}`, which holds text", printable(name_of(child)),
                                   name_of(element)));
        break;
      }
    return source_.text(element);
  }

  // ---- records

  // `id` is the key that the record stands under: pins need that of their connector.
  void members(xml_node parent, const Record& record, int kind, std::string_view id) {
    const Field* last = nullptr;
    bool extended = false;
    for (const xml_node child : elements(parent)) {
      const std::string_view name = name_of(child);
      if (name == extension_name) {
        if (extended) out_of_place(child, "stands here twice");
        extended = true;
        only_attributes(child, {});
        extension(child);
        continue;
      }
      const Field* field = field_named(record, kind, name);
      if (field == nullptr) {
        unknown_member(child);
        continue;
      }
      if (extended)
        out_of_place(child, fmt::format("stands behind `{}`, which is the last", extension_name));
      else if (field < last) // fields of one record lie in one array
        out_of_place(child, fmt::format("stands behind `{}`; the order is that of exchange.xsd", last->key));
      last = std::max(last, field);
      const std::uint32_t place = at(child);
      json_.key(field->key, place);
      value(child, *field, *field->member.type, id);
    }
  }

  void out_of_place(xml_node element, std::string_view why) {
    source_.report("xml-structure", source_.place(element), fmt::format("`{}` {}", name_of(element), why));
  }

  static const Field* field_named(const Record& record, int kind, std::string_view name) {
    for (const Field& field : record.fields) {
      const bool is_kind = record.kinds != nullptr && &field == record.fields.data();
      if (!is_kind && !is_in_root_element(field) && element_name(field) == name &&
          belongs(record, field, kind))
        return &field;
    }
    return nullptr;
  }

  void unknown_member(xml_node element) {
    const std::string_view name = name_of(element);
    const bool is_kind = name == "kind" || name == "format";
    if (newer_ && !is_kind) {
      source_.report(
          "xml-structure", source_.place(element),
          fmt::format("`{}` is left out: this program does not know it, nor what it holds", printable(name)),
          Severity::warning);
      return;
    }
    if (name.starts_with("x_") || is_kind || name.starts_with("$")) {
      source_.report("xml-structure", source_.place(element),
                     name.starts_with("x_")
                         ? fmt::format("`{}` stands in `{}`: <{}><string key=\"{}\">…", printable(name),
                                       extension_name, extension_name, printable(name))
                     : name == "format"
                         ? std::string("`format` is an attribute of the root element")
                         : std::string("there is no element `kind`: the kind is the name of an element"));
      return;
    }
    // The reader knows the names of all members, and the nearest one.
    json_.key(name, at(element));
    json_.text(source_.text(element), at(element));
  }

  void record(xml_node element, const Record& record, std::string_view id) {
    json_.open_object(at(element));
    members(element, record, -1, id);
    json_.close_object();
  }

  // `element` is named by its kind.
  void variant(xml_node element, const Record& record) {
    const std::string_view word = name_of(element);
    int kind = -1;
    for (std::size_t i = 0; i < record.kinds->words.size(); ++i)
      if (record.kinds->words[i].text == word) kind = static_cast<int>(i);
    const std::uint32_t place = at(element);
    json_.open_object(place);
    json_.key(record.fields[0].key, place);
    json_.text(word, place);
    members(element, record, kind, {});
    json_.close_object();
  }

  // ---- values

  void value(xml_node element, const Field& field, const Type& type, std::string_view id) {
    if (type.item != nullptr) {
      only_attributes(element, {});
      items(element, field, type, id);
    } else if (type.record == nullptr) {
      scalar(element, field, type, {});
    } else if (type.record->kinds == nullptr) {
      only_attributes(element, {});
      record(element, *type.record, {});
    } else {
      only_attributes(element, {});
      one_variant(element, *type.record);
    }
  }

  void one_variant(xml_node element, const Record& record) {
    const std::vector<xml_node> kinds = elements(element);
    if (kinds.size() != 1)
      source_.report(
          "xml-structure", source_.place(kinds.size() > 1 ? kinds[1] : element),
          fmt::format("`{}` holds exactly one element, which is named by its kind, for example `{}`",
                      name_of(element), record.kinds->words[0].text));
    if (kinds.empty()) {
      json_.open_object(at(element));
      json_.close_object();
      return;
    }
    only_attributes(kinds[0], {});
    variant(kinds[0], record);
  }

  void items(xml_node element, const Field& field, const Type& container, std::string_view id) {
    const bool map = container.shape == Shape::map;
    const Type& item = *container.item;
    const bool is_variant = item.record != nullptr && item.record->kinds != nullptr;
    map ? json_.open_object(at(element)) : json_.open_array(at(element));
    for (const xml_node child : elements(element)) {
      if (!is_variant && name_of(child) != item_name(container)) {
        source_.report("xml-structure", source_.place(child),
                       fmt::format("`{}` stands in `{}`, which holds `{}`", printable(name_of(child)),
                                   name_of(element), item_name(container)));
        continue;
      }
      std::string key;
      if (map) {
        const std::optional<std::string> found = key_of(child, container, id);
        if (!found) continue;
        key = *found;
        json_.key(key, at(source_.place(attribute(child, key_attribute(container)))));
      } else if (item.record != nullptr) {
        only_attributes(child, {});
      }
      if (is_variant)
        variant(child, *item.record);
      else if (item.record != nullptr)
        record(child, *item.record, key);
      else
        scalar(child, field, item, map ? key_attribute(container) : std::string_view());
    }
    map ? json_.close_object() : json_.close_array();
  }

  // The key of an entry; of a pin, the contact without its connector.
  std::optional<std::string> key_of(xml_node entry, const Type& map, std::string_view id) {
    const std::string_view name = key_attribute(map);
    const pugi::xml_attribute found = attribute(entry, name);
    if (!found) {
      source_.report("xml-structure", source_.place(entry),
                     fmt::format("`{}` needs the attribute `{}`", name_of(entry), name));
      return std::nullopt;
    }
    if (map.item->record != nullptr) only_attributes(entry, {name});
    std::string key = source_.text(found);
    if (name == "id") return key;
    if (key.size() <= id.size() || !key.starts_with(id) || key[id.size()] != '.') {
      source_.report(
          "xml-structure", source_.place(found),
          fmt::format("\"{}\" is no contact of this connector; it begins with \"{}.\"", printable(key), id));
      return std::nullopt;
    }
    return key.substr(id.size() + 1);
  }

  void scalar(xml_node element, const Field& field, const Type& type, std::string_view key) {
    const std::string written = text(element);
    const std::uint32_t place = at(source_.place_of_text(element));
    const auto names = number_names(field, type);
    const std::string_view unit = names[0].empty() ? std::string_view() : "unit";
    only_attributes(element, {key, names[0], names[1], unit});
    const std::string_view plain = trimmed(written, blanks);
    if (type.shape == Shape::boolean && (plain == "true" || plain == "false"))
      json_.raw(plain, plain == "true" ? rapidjson::kTrueType : rapidjson::kFalseType, place);
    else if (type.shape == Shape::integer && is_json_number(plain))
      json_.raw(plain, rapidjson::kNumberType, place);
    else
      json_.text(written, place);
    if (!names[0].empty()) compare_numbers(element, field, type, written);
  }

  // Numbers stand beside the written quantity for other programs; the written one counts.
  void compare_numbers(xml_node element, const Field& field, const Type& type, std::string_view written) {
    const std::optional<Numbers> numbers = numbers_of(written, field, type);
    if (!numbers) return; // the reader says why
    const auto names = number_names(field, type);
    for (std::size_t i = 0; i < numbers->count; ++i) {
      const pugi::xml_attribute found = attribute(element, names[i]);
      if (!found) continue;
      const std::string given = source_.text(found);
      const std::optional<double> number = number_in(trimmed(given, blanks));
      if (!number)
        source_.report("number-malformed", source_.place(found),
                       fmt::format("`{}` is \"{}\", which is no number; write {}, or leave it out", names[i],
                                   printable(given), number_text(numbers->values[i])));
      else if (!same_number(*number, numbers->values[i]))
        source_.report("number-differs", source_.place(found),
                       fmt::format("`{}` says {} {}, but \"{}\" is {} {}; what is written out counts",
                                   names[i], number_text(*number), numbers->unit, printable(written),
                                   number_text(numbers->values[i]), numbers->unit),
                       Severity::warning);
    }
    if (const pugi::xml_attribute found = attribute(element, "unit"))
      if (const std::string given = source_.text(found); trimmed(given, blanks) != numbers->unit)
        source_.report("number-differs", source_.place(found),
                       fmt::format("`unit` is \"{}\"; the numbers beside \"{}\" are in {}", printable(given),
                                   printable(written), numbers->unit));
  }

  // ---- what no description names: any JSON value

  void extension(xml_node element) {
    const std::vector<xml_node> held = elements(element);
    if (held.empty()) out_of_place(element, "is empty; leave it out");
    for (const xml_node child : held) {
      const std::string key = source_.text(attribute(child, "key"));
      if (attribute(child, "key") && !key.starts_with("x_") && !newer_)
        source_.report("xml-structure", source_.place(attribute(child, "key")),
                       fmt::format("a key of your own begins with x_, this one is \"{}\"", printable(key)));
      json_value(child, true);
    }
  }

  bool is_escaped(xml_node element, std::string_view name) {
    const pugi::xml_attribute found = attribute(element, name);
    if (!found) return false;
    const std::string given = source_.text(found);
    const std::string_view word = trimmed(given, blanks);
    if (word != "true" && word != "false")
      source_.report("xml-structure", source_.place(found), fmt::format("`{}` is true or false", name));
    return word == "true";
  }

  void json_text(std::string_view text, bool escaped, Source_bytes place, bool is_key) {
    if (escaped && !is_escaped_text(text)) {
      source_.report("xml-structure", place,
                     "the text is not written with the escapes of JSON, as `escaped` says");
      escaped = false;
    }
    const std::uint32_t here = at(place);
    if (escaped)
      json_.raw(fmt::format("\"{}\"", text), rapidjson::kStringType, here);
    else
      is_key ? json_.key(text, here) : json_.text(text, here);
  }

  void json_value(xml_node element, bool keyed) {
    const std::string_view name = name_of(element);
    static constexpr std::string_view known[] = {"map", "array", "string", "number", "boolean", "null"};
    if (std::find(std::begin(known), std::end(known), name) == std::end(known)) {
      source_.report("xml-structure", source_.place(element),
                     fmt::format("`{}` is no JSON value; write map, array, string, number, boolean or null",
                                 printable(name)));
      return;
    }
    const std::string_view key_name = keyed ? "key" : std::string_view();
    only_attributes(element,
                    {key_name, keyed ? "escaped-key" : key_name, name == "string" ? "escaped" : key_name});
    if (keyed) {
      const pugi::xml_attribute key = attribute(element, "key");
      if (!key) {
        source_.report("xml-structure", source_.place(element),
                       fmt::format("`{}` needs the attribute `key`", name));
        return;
      }
      json_text(source_.text(key), is_escaped(element, "escaped-key"), source_.place(key), true);
    }
    const std::uint32_t here = at(element);
    if (name == "map" || name == "array") {
      const bool map = name == "map";
      map ? json_.open_object(here) : json_.open_array(here);
      for (const xml_node child : elements(element)) json_value(child, map);
      map ? json_.close_object() : json_.close_array();
      return;
    }
    const std::string held = text(element);
    const std::string_view plain = trimmed(held, blanks);
    const bool fits = name == "string" || (name == "number" && is_json_number(plain)) ||
                      (name == "boolean" && (plain == "true" || plain == "false")) ||
                      (name == "null" && held.empty());
    if (!fits)
      source_.report("xml-structure", source_.place_of_text(element),
                     fmt::format("\"{}\" is no {}", printable(held.substr(0, 40)), name));
    if (name == "string" || !fits)
      json_text(held, is_escaped(element, "escaped"), source_.place_of_text(element), false);
    else if (name == "null")
      json_.raw("null", rapidjson::kNullType, here);
    else
      json_.raw(plain, name == "number" ? rapidjson::kNumberType : rapidjson::kTrueType, here);
  }

  Xml_source& source_;
  std::vector<Source_bytes>& places_;
  Origin_text json_;
  bool newer_ = false; ///< the document is of a minor version that this program does not know
};

}

void relocate(const Xml_import& import, std::string_view bytes, std::vector<Finding>& findings) {
  const auto move = [&](Region& region) {
    const Source_bytes place =
        import.places.empty() ? Source_bytes{} : import.places[place_of(import.origins, region.begin)];
    region.begin = place.begin;
    region.end = std::max(place.begin, place.end);
  };
  const std::string& name = import.read.document.name();
  for (Finding& finding : findings) {
    if (finding.file == name) move(finding.region);
    for (Related& related : finding.related)
      if (related.file == name) move(related.region);
    for (Fix& fix : finding.fixes) {
      fix.edits.clear();
      fix.safety = Fix_safety::display_only;
    }
  }
  place(bytes, findings);
}

Xml_import read_xml(std::string name, std::string_view bytes) {
  Xml_import import;
  std::vector<Finding> findings;
  Xml_source source(name, bytes, findings);
  Xml_reader reader(source, import.places);
  if (const xml_node root = source.root()) {
    reader.document(root);
    import.origins = reader.json().take_origins();
    if (const std::string_view json = reader.json().json(); !json.empty()) {
      import.read = read_json(std::move(name), json);
      relocate(import, bytes, import.read.findings);
    }
  }
  place(bytes, findings);
  std::vector<Finding>& all = import.read.findings;
  all.insert(all.end(), std::make_move_iterator(findings.begin()), std::make_move_iterator(findings.end()));
  std::stable_sort(all.begin(), all.end(),
                   [](const Finding& a, const Finding& b) { return a.region.begin < b.region.begin; });
  return import;
}

}
