// A profile as one line of JSON for programs that query: parts laid beneath their components, quantities as
// numbers beside what is written.
#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "exchange/members.h"
#include "exchange/numbers.h"
#include "ohmlore/exchange.h"
#include "publish/exchange_names.h"
#include "text/json_memory.h"

namespace ohmlore {
namespace {

class Line_writer {
public:
  Line_writer(const Document& document, const Surroundings& surroundings)
      : profile_(document), surroundings_(surroundings) {}

  std::string line() {
    json_.StartObject();
    const Members found = members_of(profile_, profile_record, Document::root);
    for (std::size_t i = 0; i < profile_record.fields.size(); ++i) {
      const Field& field = profile_record.fields[i];
      if (field.key != "sources") member(profile_, field, found.fields[i]);
      if (field.key == "components" && found.fields[i] != 0) look_for_parts(found.fields[i]);
    }
    sources(found.fields[place_of("sources")]);
    others(profile_, found);
    json_.EndObject();
    return std::string(buffer_.GetString(), buffer_.GetSize()) + '\n';
  }

private:
  static std::size_t place_of(std::string_view key) {
    std::size_t place = 0;
    while (profile_record.fields[place].key != key) ++place;
    return place;
  }

  void key(std::string_view key) { json_.Key(key.data(), static_cast<rapidjson::SizeType>(key.size())); }
  void text(std::string_view text) {
    json_.String(text.data(), static_cast<rapidjson::SizeType>(text.size()));
  }
  void number(double number) {
    const std::string text = number_text(number);
    json_.RawValue(text.data(), text.size(), rapidjson::kNumberType);
  }

  // JSON as it stands, without the space between its tokens.
  void any(const Document& document, Node_id node) {
    const Node& n = document.node(node);
    switch (n.type) {
    case Node_type::string: text(document.string(node)); return;
    case Node_type::array:
      json_.StartArray();
      for (Node_id item = node + 1; item < n.next; item = document.node(item).next) any(document, item);
      json_.EndArray();
      return;
    case Node_type::object:
      json_.StartObject();
      for (Node_id member = node + 1; member < n.next; member = document.node(member + 1).next) {
        key(document.string(member));
        any(document, member + 1);
      }
      json_.EndObject();
      return;
    default: {
      const Text written = document.written(node);
      json_.RawValue(written.data(), written.size(), rapidjson::kNumberType);
    }
    }
  }

  void others(const Document& document, const Members& members) {
    for (const Node_id other : members.others) {
      key(document.string(other));
      any(document, other + 1);
    }
  }

  void member(const Document& document, const Field& field, Node_id node) {
    if (node == 0) return;
    key(field.key);
    const Type& type = *field.member.type;
    value(document, field, type, node);
    const auto names = number_names(field, type);
    if (names[0].empty()) return;
    const std::optional<Numbers> numbers = numbers_of(document.string(node), field, type);
    for (std::size_t i = 0; numbers && i < numbers->count; ++i) {
      key(fmt::format("{}_{}", field.key, names[i]));
      number(numbers->values[i]);
    }
    if (!numbers) return;
    key(fmt::format("{}_unit", field.key));
    text(numbers->unit);
  }

  void value(const Document& document, const Field& field, const Type& type, Node_id node) {
    if (type.record != nullptr) {
      record(document, *type.record, node);
    } else if (type.item != nullptr) {
      const bool map = type.shape == Shape::map;
      map ? json_.StartObject() : json_.StartArray();
      for (Node_id item = node + 1; item < document.node(node).next; item = document.node(item).next) {
        if (map) key(document.string(item++));
        value(document, field, *type.item, item);
      }
      map ? json_.EndObject() : json_.EndArray();
    } else if (field.target == Target::source && &document != &profile_) {
      text(source_of_part(document, document.string(node)));
    } else {
      any(document, node);
    }
  }

  // `source` is where its numbers are from, if it does not say so itself.
  void record(const Document& document, const Record& record, Node_id object, Node_id source = 0) {
    const Members found = members_of(document, record, object);
    json_.StartObject();
    for (std::size_t i = 0; i < record.fields.size(); ++i) {
      const Field& field = record.fields[i];
      member(document, field, found.fields[i] == 0 && field.key == "source" ? source : found.fields[i]);
    }
    if (&record == &component_record) beneath(found, part_of(object));
    others(document, found);
    json_.EndObject();
  }

  // ---- parts

  const Document* part_of(Node_id component) const {
    const Node_id part = profile_.member(component, "part");
    return part != 0 && surroundings_.parts != nullptr ? surroundings_.parts->find(profile_.string(part))
                                                       : nullptr;
  }

  void look_for_parts(Node_id components) {
    for (Node_id id = components + 1; id < profile_.node(components).next; id = profile_.node(id + 1).next)
      if (const Document* part = part_of(id + 1)) parts_.insert({std::string(*part->part()->id), part});
  }

  // The members of its part that a component does not have itself.
  void beneath(const Members& own, const Document* part) {
    if (part == nullptr) return;
    const Node_id type = part->member(Document::root, "component");
    const Members of_part = members_of(*part, component_type_record, type);
    Node_id source = part->member(type, "source");
    if (source == 0) source = part->member(Document::root, "source");
    for (std::size_t i = 0; i < component_type_record.fields.size(); ++i) {
      const Field& field = component_type_record.fields[i];
      bool is_own = false;
      for (std::size_t k = 0; k < component_record.fields.size(); ++k)
        is_own = is_own || (component_record.fields[k].key == field.key && own.fields[k] != 0);
      const Node_id node = of_part.fields[i];
      if (is_own || node == 0) continue;
      if (const Record* inner = field.member.type->record;
          inner != nullptr && inner != &source_reference_record) {
        key(field.key);
        record(*part, *inner, node, source);
      } else {
        member(*part, field, node);
      }
    }
    for (const Node_id other : of_part.others) {
      const bool is_own = std::any_of(own.others.begin(), own.others.end(), [&](Node_id own_key) {
        return profile_.string(own_key) == part->string(other);
      });
      if (is_own) continue;
      key(part->string(other));
      any(*part, other + 1);
    }
  }

  static std::string source_of_part(const Document& part, std::string_view source) {
    return fmt::format("{}/{}", *part.part()->id, source);
  }

  // The profile's own, and those of its parts: no id has a `/`.
  void sources(Node_id own) {
    if (own == 0 && parts_.empty()) return;
    key("sources");
    json_.StartObject();
    const Field& field = profile_record.fields[place_of("sources")];
    const auto all = [&](const Document& document, Node_id map) {
      if (map == 0) return;
      for (Node_id id = map + 1; id < document.node(map).next; id = document.node(id + 1).next) {
        key(&document == &profile_ ? std::string(document.string(id))
                                   : source_of_part(document, document.string(id)));
        value(document, field, *field.member.type->item, id + 1);
      }
    };
    all(profile_, own);
    for (const auto& [id, part] : parts_) all(*part, part->member(Document::root, "sources"));
    json_.EndObject();
  }

  const Document& profile_;
  const Surroundings& surroundings_;
  Json_buffer buffer_;
  Json_line_writer json_{buffer_};
  std::set<std::pair<std::string, const Document*>> parts_;
};

}

std::string jsonl_of(const Read_result& read, const Surroundings& surroundings) {
  if (!is_readable(read) || read.document.profile() == nullptr) return {};
  return Line_writer(read.document, surroundings).line();
}

}
