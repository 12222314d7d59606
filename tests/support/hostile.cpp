#include "support/hostile.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "support/mutants.h"

namespace ohmlore::test {
namespace {

const Field* field_of(const Document& document, const Record& record, Node_id object, std::string_view key) {
  std::uint64_t kind = every_kind;
  if (record.kinds != nullptr) {
    const Text word = document.string(document.member(object, "kind"));
    for (std::size_t i = 0; i < record.kinds->words.size(); ++i)
      if (record.kinds->words[i].text == word) kind = std::uint64_t{1} << i;
  }
  for (const Field& field : record.fields)
    if (field.key == key && (field.kinds & kind) != 0) return &field;
  return nullptr;
}

const Record& root_record(const Document& document) {
  return document_record(document.profile() ? Document_kind::profile
                         : document.part()  ? Document_kind::part
                                            : Document_kind::corpus);
}

std::string json_text(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    if (static_cast<unsigned char>(c) < 0x20)
      out += fmt::format("\\u{:04x}", static_cast<unsigned>(static_cast<unsigned char>(c)));
    else
      out += c;
  }
  return out + '"';
}

const std::vector<std::string>& texts() {
  static const std::vector<std::string> list = {
      "]]>",
      "<![CDATA[x]]>",
      "<b>&amp;&lt;</b>",
      "&#65;&unknown;",
      "<!-- -- -->",
      "\"",
      "\"\"",
      "a \"quoted\" word, and more",
      "it's",
      "'",
      "'=1+1",
      "''",
      "=1+1",
      "=cmd|' /C calc'!A0",
      "+49 1234",
      "-5",
      "@SUM(A1)",
      "|a|b|",
      ";a;b;",
      "a;b,c\\,d",
      "\\",
      "\\\\n\\u0041",
      " ",
      "  leading and trailing  ",
      ",",
      "null",
      "true",
      "1",
      "00123",
      "1e5",
      "3-4",
      "2021-03",
      "#N/A",
      "%41%0A",
      "{\"a\": [1]}",
      "\xC2\xA0no-break\xC2\xA0",
      "\xE2\x80\xA8line and paragraph\xE2\x80\xA9",
      "\xEF\xBB\xBFmark",
      "\xF0\x9F\x94\xA5\xF0\x9F\x91\xA9\xE2\x80\x8D\xF0\x9F\x94\xA7",
      "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xE2\x80\xAB\xD8\xB3\xD9\x84\xD8\xA7\xD9\x85\xE2\x80\xAC",
      "\xCC\x81 combining first",
      "\xED\x9F\xBF\xEE\x80\x80\xEF\xBF\xBD\xF4\x8F\xBF\xBF",
      std::string(2048, 'w'),
  };
  return list;
}

// What only members of others may hold.
const std::vector<std::string>& values() {
  static const std::vector<std::string> list = {
      "null",
      "true",
      "[]",
      "{}",
      "\"\"",
      "0",
      "-0",
      "1.50",
      "1E+2",
      "12345678901234567890.123456789",
      "\"a\\tb\\nc\\rd\"",
      "\"\\u0000\\u0001\\u001f\\u007f\\u0085\"",
      "\"\\ufffe\\uffff\"",
      "\"\\\\u0041\\\\\"",
      "[[], {}, [null], [{ \"\": 1 }]]",
      "{ \"\": \"\", \"a b\": [1, 2.0], \"\\n\": 1, \"<k>\": \"]]>\", \"kind\": 3, \"a b\": 4 }",
      "[\"=1\", \"'\", \"\\\"\", \"\\uD83D\\uDD25\"]"};
  return list;
}

class Writer {
public:
  Writer(const Document& document, unsigned seed) : document_(document), dice_(seed) {}

  std::string record(const Record& record, Node_id object) {
    std::string out = "{";
    const Node_id end = document_.node(object).next;
    for (Node_id key = object + 1; key < end; key = document_.node(key + 1).next) {
      const Field* field = field_of(document_, record, object, document_.string(key));
      out += fmt::format("{}{}:", out.size() > 1 ? "," : "", document_.written(key));
      out += field == nullptr ? std::string(document_.written(key + 1))
                              : value(*field, *field->member.type, key + 1);
    }
    if (dice_.below(8) == 0)
      for (std::size_t i = 0; i <= dice_.below(3); ++i) {
        static const std::vector<std::string> keys = {"x_", "x_note", "x_\\u0009tab", "x_\\\"<&>",
                                                      "x_\xF0\x9F\x94\xA5"};
        out += fmt::format("{}\"{}{}\":{}", out.size() > 1 ? "," : "", dice_.one_of(keys), i,
                           dice_.below(2) == 0 ? dice_.one_of(values()) : json_text(dice_.one_of(texts())));
      }
    return out + "}";
  }

private:
  std::string value(const Field& field, const Type& type, Node_id node) {
    if (type.record != nullptr) return record(*type.record, node);
    if (type.item != nullptr) {
      const bool map = type.shape == Shape::map;
      std::string out;
      for (Node_id item = node + 1; item < document_.node(node).next; item = document_.node(item).next) {
        if (!out.empty()) out += ',';
        if (map) out += fmt::format("{}:", document_.written(item++));
        out += value(field, *type.item, item);
      }
      return map ? "{" + out + "}" : "[" + out + "]";
    }
    const bool free = type.shape == Shape::text && field.form == Form::free && field.target == Target::none &&
                      field.constant.empty();
    if (!free || dice_.below(3) != 0) return std::string(document_.written(node));
    return json_text(dice_.one_of(texts()));
  }

  const Document& document_;
  Dice dice_;
};

class Comparison {
public:
  Comparison(const Document& one, const Document& other) : one_(one), other_(other) {}

  std::string record(const Record& record, Node_id a, Node_id b) {
    if (one_.node(a).count != other_.node(b).count) return at(a, "another number of members");
    std::vector<Node_id> unknown;
    for (Node_id key = a + 1; key < one_.node(a).next; key = one_.node(key + 1).next) {
      const Field* field = field_of(one_, record, a, one_.string(key));
      if (field == nullptr) {
        unknown.push_back(key);
        continue;
      }
      const Node_id same = other_.member(b, one_.string(key));
      if (same == 0) return at(key + 1, "only in one");
      if (std::string found = value(*field->member.type, key + 1, same); !found.empty()) return found;
    }
    std::size_t next = 0;
    for (Node_id key = b + 1; key < other_.node(b).next; key = other_.node(key + 1).next) {
      if (field_of(other_, record, b, other_.string(key)) != nullptr) continue;
      if (next == unknown.size() || one_.string(unknown[next]) != other_.string(key))
        return at(a, "other unknown members");
      if (std::string found = any(unknown[next++] + 1, key + 1); !found.empty()) return found;
    }
    return {};
  }

private:
  std::string at(Node_id node, std::string_view what) {
    return fmt::format("{}: {}: {}", one_.pointer(node), what, one_.written(node).substr(0, 200));
  }

  std::string value(const Type& type, Node_id a, Node_id b) {
    if (type.record != nullptr) return record(*type.record, a, b);
    if (type.item == nullptr) return any(a, b);
    return items(a, b, [&](Node_id c, Node_id d) { return value(*type.item, c, d); });
  }

  template <class Compare>
  std::string items(Node_id a, Node_id b, Compare compare) {
    const Node &n = one_.node(a), &m = other_.node(b);
    if (n.type != m.type || n.count != m.count) return at(a, "another container");
    Node_id d = b + 1;
    for (Node_id c = a + 1; c < n.next; c = one_.node(c).next, d = other_.node(d).next) {
      if (n.type == Node_type::object && one_.string(c++) != other_.string(d++)) return at(c, "another key");
      if (std::string found = compare(c, d); !found.empty()) return found;
    }
    return {};
  }

  std::string any(Node_id a, Node_id b) {
    const Node &n = one_.node(a), &m = other_.node(b);
    if (n.type == Node_type::array || n.type == Node_type::object)
      return items(a, b, [&](Node_id c, Node_id d) { return any(c, d); });
    if (n.type != m.type) return at(a, "another type");
    const bool same = n.type == Node_type::string ? one_.string(a) == other_.string(b)
                                                  : one_.written(a) == other_.written(b);
    return same ? "" : at(a, fmt::format("not {}", other_.written(b).substr(0, 200)));
  }

  const Document& one_;
  const Document& other_;
};

}

std::string with_hostile_texts(const Document& document, unsigned seed) {
  return Writer(document, seed).record(root_record(document), Document::root);
}

std::string tree_difference(const Document& one, const Document& other) {
  if (!one.whole() || !other.whole()) return "one was not read to its end";
  if (&root_record(one) != &root_record(other)) return "another kind of document";
  return Comparison(one, other).record(root_record(one), Document::root, Document::root);
}

}
