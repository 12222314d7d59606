#include "ohmlore/canonical_json.h"

#include <algorithm>
#include <unordered_map>

#include <fmt/format.h>

#include "document/described.h"
#include "document/plainly.h"

namespace ohmlore {
namespace {

constexpr std::size_t widest = 160; // columns of a line, the comma at its end left out
constexpr std::size_t step = 2;     // columns of one level

// A JSON string as RFC 8785, section 3.2.2.2 writes it.
std::string quoted(Text text) {
  std::string out(1, '"');
  for (const char c : text) {
    switch (c) {
    case '"': out += "\\\""; break;
    case '\\': out += "\\\\"; break;
    case '\b': out += "\\b"; break;
    case '\t': out += "\\t"; break;
    case '\n': out += "\\n"; break;
    case '\f': out += "\\f"; break;
    case '\r': out += "\\r"; break;
    default:
      if (c >= 0 && c < 0x20)
        out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
      else
        out += c;
    }
  }
  return out += '"';
}

}

std::string written_plainly(const Document& document, Node_id node) {
  return document.node(node).escaped ? quoted(document.string(node)) : std::string(document.written(node));
}

namespace {

class Writer {
public:
  Writer(const Document& document, Prefixes prefixes) : document_(document) {
    for (const Quantity_use& use : document.quantities()) respell(use, prefixes);
    if (document.profile() != nullptr) arrange(document_record(Document_kind::profile), Document::root);
    if (document.part() != nullptr) arrange(document_record(Document_kind::part), Document::root);
    if (document.corpus() != nullptr) arrange(document_record(Document_kind::corpus), Document::root);
  }

  std::string write() {
    append(Document::root, 0, 0);
    out_ += '\n';
    return std::move(out_);
  }

private:
  void respell(const Quantity_use& use, Prefixes prefixes) {
    const std::string text =
        canonical_spelling(document_.string(use.node), use.grammar, use.allowed, prefixes);
    texts_[use.node] = quoted(text);
  }

  // Where the members of a record do not stand in the order of its description, or a number has another text.
  void arrange(const Record& record, Node_id object) {
    const int kind = kind_of(document_, record, object);
    struct Placed {
      std::size_t place;
      Node_id key;
    };
    std::vector<Placed> members;
    for (Node_id key = object + 1; key < document_.node(object).next; key = document_.node(key + 1).next) {
      const Field* field = field_of(record, kind, document_.string(key));
      members.push_back(
          {field == nullptr ? record.fields.size() : static_cast<std::size_t>(field - record.fields.data()),
           key});
      if (field != nullptr) arrange(*field->member.type, key + 1);
    }
    const auto before = [](const Placed& a, const Placed& b) { return a.place < b.place; };
    if (std::is_sorted(members.begin(), members.end(), before)) return;
    std::stable_sort(members.begin(), members.end(), before);
    std::vector<Node_id>& keys = orders_[object];
    for (const Placed& member : members) keys.push_back(member.key);
  }
  void arrange(const Type& type, Node_id node) {
    const Node& n = document_.node(node);
    if (type.shape == Shape::record && n.type == Node_type::object) {
      arrange(*type.record, node);
    } else if (type.shape == Shape::list && n.type == Node_type::array) {
      for (Node_id item = node + 1; item < n.next; item = document_.node(item).next)
        arrange(*type.item, item);
    } else if (type.shape == Shape::map && n.type == Node_type::object) {
      for (Node_id key = node + 1; key < n.next; key = document_.node(key + 1).next)
        arrange(*type.item, key + 1);
    } else if (type.shape == Shape::integer && document_.written(node) == "-0") {
      texts_.emplace(node, "0");
    }
  }

  // Calls `f(key, value)` for each member or item in the order of writing, with key 0 for an item, until it
  // returns false.
  template <class F>
  bool each(Node_id container, F f) const {
    const Node& n = document_.node(container);
    if (const auto order = orders_.find(container); order != orders_.end())
      return std::all_of(order->second.begin(), order->second.end(),
                         [&](Node_id key) { return f(key, key + 1); });
    for (Node_id at = container + 1; at < n.next;) {
      const Node_id key = n.type == Node_type::object ? at : 0, value = key != 0 ? at + 1 : at;
      if (!f(key, value)) return false;
      at = document_.node(value).next;
    }
    return true;
  }

  bool is_container(Node_id node) const {
    const Node_type type = document_.node(node).type;
    return type == Node_type::object || type == Node_type::array;
  }

  std::string scalar(Node_id node) const {
    if (const auto text = texts_.find(node); text != texts_.end()) return text->second;
    return written_plainly(document_, node);
  }

  // Appends a value to a line that may have `most` columns. False: it does not fit, or may not stand on one
  // line since it holds several objects.
  bool append_flat(std::string& line, std::size_t& columns, std::size_t most, Node_id node) const {
    const auto add = [&](std::string_view text) {
      line += text;
      columns += code_points(text);
      return columns <= most;
    };
    if (!is_container(node)) return add(scalar(node));
    const bool object = document_.node(node).type == Node_type::object;
    if (document_.node(node).count == 0) return add(object ? "{}" : "[]");
    int objects = 0;
    bool first = true;
    const bool fits = each(node, [&](Node_id key, Node_id value) {
      if (document_.node(value).type == Node_type::object && ++objects > 1) return false;
      if (!add(first ? object ? "{" : "[" : ", ")) return false;
      first = false;
      return (key == 0 || (add(scalar(key)) && add(": "))) && append_flat(line, columns, most, value);
    });
    return fits && add(object ? "}" : "]");
  }

  // Appends a value to a line that is indented so far, and has so many columns already.
  void append(Node_id node, std::size_t indentation, std::size_t columns) {
    const Node& n = document_.node(node);
    const bool object = n.type == Node_type::object;
    if (!is_container(node) || n.count == 0) {
      append_flat(out_, columns, widest, node);
      return;
    }
    if (std::string line; node != Document::root && append_flat(line, columns, widest, node)) {
      out_ += line;
      return;
    }
    out_ += object ? '{' : '[';
    bool first = true;
    each(node, [&](Node_id key, Node_id value) {
      out_ += first ? "\n" : ",\n";
      first = false;
      out_.append(indentation + step, ' ');
      std::size_t used = indentation + step;
      if (key != 0) {
        const std::string name = scalar(key) + ": ";
        out_ += name;
        used += code_points(name);
      }
      append(value, indentation + step, used);
      return true;
    });
    out_ += '\n';
    out_.append(indentation, ' ');
    out_ += object ? '}' : ']';
  }

  const Document& document_;
  std::string out_;
  std::unordered_map<Node_id, std::string> texts_;           // what is written in place of a value
  std::unordered_map<Node_id, std::vector<Node_id>> orders_; // the keys of a record, where they move
};

}

std::string canonical_json(const Document& document, Prefixes prefixes) {
  if (!document.whole()) return {};
  return Writer(document, prefixes).write();
}

}
