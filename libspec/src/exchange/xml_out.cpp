// From the tree to XML. The descriptions say which element a member is, and in which order they stand.
#include <pugixml.hpp>

#include "document/described.h"
#include "exchange/json_escapes.h"
#include "exchange/members.h"
#include "exchange/numbers.h"
#include "ohmlore/exchange.h"
#include "publish/exchange_names.h"
#include "text/xml_text.h"

namespace ohmlore {
namespace {

using pugi::xml_node;

xml_node element(xml_node parent, std::string_view name) {
  return add_element(parent, std::string(name).c_str());
}

void attribute(xml_node node, std::string_view name, std::string_view value) {
  add_attribute(node, std::string(name).c_str(), std::string(value).c_str());
}

class Xml_writer {
public:
  explicit Xml_writer(const Document& document) : document_(document) {}

  std::string write(Document_kind kind) {
    const Record& record = document_record(kind);
    add_declaration(xml_);
    xml_node root = element(xml_, record.name);
    attribute(root, "xmlns", xml_namespace);
    attribute(root, "format", document_.string(document_.member(Document::root, "format")));
    members(root, record, Document::root, {});
    if (foreign_bytes_ > most_xml_bytes) return {};
    std::string text = xml_text(xml_);
    return text.size() > most_xml_bytes ? std::string() : text;
  }

private:
  void text(xml_node node, std::string_view text) {
    must_be_made(node.text().set(std::string(text).c_str()));
  }

  // `id` is the key that the record stands under: pins need that of their connector.
  void members(xml_node at, const Record& record, Node_id object, std::string_view id) {
    const Members found = members_of(document_, record, object);
    for (std::size_t i = record.kinds != nullptr ? 1 : 0; i < record.fields.size(); ++i) {
      const Field& field = record.fields[i];
      if (const Node_id node = found.fields[i]; node != 0 && !is_in_root_element(field))
        value(element(at, element_name(field)), field, *field.member.type, node, id);
    }
    if (found.others.empty()) return;
    const xml_node extension = element(at, extension_name);
    for (const Node_id key : found.others) json_value(extension, key + 1, key);
  }

  void value(xml_node at, const Field& field, const Type& type, Node_id node, std::string_view id) {
    if (type.item != nullptr) {
      items(at, field, type, node, id);
    } else if (type.record != nullptr) {
      members(type.record->kinds != nullptr ? element(at, kind_word(*type.record, node)) : at, *type.record,
              node, {});
    } else if (document_.node(node).type == Node_type::string) {
      text(at, document_.string(node));
      numbers(at, field, type, document_.string(node));
    } else {
      text(at, document_.written(node));
    }
  }

  std::string_view kind_word(const Record& record, Node_id object) {
    return document_.string(document_.member(object, record.fields[0].key));
  }

  void items(xml_node at, const Field& field, const Type& container, Node_id node, std::string_view id) {
    const bool map = container.shape == Shape::map;
    const Type& item = *container.item;
    const Node_id end = document_.node(node).next;
    for (Node_id at_item = node + 1; at_item < end; at_item = document_.node(at_item).next) {
      const Text key = map ? document_.string(at_item) : Text();
      if (map) ++at_item;
      const bool variant = item.record != nullptr && item.record->kinds != nullptr;
      xml_node held = element(at, variant ? kind_word(*item.record, at_item) : item_name(container));
      if (map) {
        const std::string_view name = key_attribute(container);
        attribute(held, name,
                  name == "contact" ? std::string(id) + "." + std::string(key) : std::string(key));
      }
      if (item.record != nullptr)
        members(held, *item.record, at_item, key);
      else
        value(held, field, item, at_item, {});
    }
  }

  void numbers(xml_node at, const Field& field, const Type& type, std::string_view written) {
    const auto names = number_names(field, type);
    if (names[0].empty()) return;
    const std::optional<Numbers> numbers = numbers_of(written, field, type);
    if (!numbers) return;
    for (std::size_t i = 0; i < numbers->count; ++i) attribute(at, names[i], number_text(numbers->values[i]));
    attribute(at, "unit", numbers->unit);
  }

  // ---- what no description names: any JSON value

  void json_value(xml_node parent, Node_id node, Node_id key = 0, std::size_t depth = 0) {
    const Node& n = document_.node(node);
    static constexpr std::string_view names[] = {"null", "boolean", "number", "string", "array", "map"};
    const std::string_view name = names[static_cast<std::size_t>(n.type)];
    foreign_bytes_ += 2 * depth + name.size() + std::string_view("</>\n").size();
    if (foreign_bytes_ > most_xml_bytes) return;
    xml_node at = element(parent, name);
    if (key != 0) {
      const Text text = document_.string(key);
      attribute(at, "key", needs_escapes(text) ? with_escapes(text) : std::string(text));
      if (needs_escapes(text)) attribute(at, "escaped-key", "true");
    }
    switch (n.type) {
    case Node_type::null: return;
    case Node_type::boolean:
    case Node_type::number: text(at, document_.written(node)); return;
    case Node_type::string: {
      const Text value = document_.string(node);
      if (needs_escapes(value)) attribute(at, "escaped", "true");
      text(at, needs_escapes(value) ? with_escapes(value) : std::string(value));
      return;
    }
    case Node_type::array:
      for (Node_id item = node + 1; item < n.next; item = document_.node(item).next)
        json_value(at, item, 0, depth + 1);
      return;
    case Node_type::object:
      for (Node_id member = node + 1; member < n.next; member = document_.node(member + 1).next)
        json_value(at, member + 1, member, depth + 1);
      return;
    }
  }

  const Document& document_;
  pugi::xml_document xml_;
  // What they take at least: a bracket of JSON may become a line of XML that is indented far, and of what is
  // refused in the end the tree and the text would take a hundred times the memory of the document.
  std::size_t foreign_bytes_ = 0;
};

}

std::string xml_of(const Read_result& read) {
  if (!is_readable(read)) return {};
  return Xml_writer(read.document).write(kind_of(read.document));
}

}
