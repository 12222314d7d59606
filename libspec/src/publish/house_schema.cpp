#include "ohmlore/house_schema.h"

#include <algorithm>

#include <fmt/format.h>

namespace ohmlore {
namespace {

std::string place(const Document& document, Position at) {
  return fmt::format("{}:{}:{}", document.name(), at.line, at.column);
}

// The first key that an object has twice, or 0: an engine would keep one of them, and forget a demand.
Node_id repeated_key(const Document& document) {
  for (Node_id object = Document::root; object < document.nodes().size(); ++object) {
    const Node& node = document.node(object);
    if (node.type != Node_type::object) continue;
    std::vector<std::pair<Text, Node_id>> keys;
    for (Node_id key = object + 1; key < node.next; key = document.node(key + 1).next)
      keys.emplace_back(document.string(key), key);
    std::sort(keys.begin(), keys.end());
    const auto same = std::adjacent_find(keys.begin(), keys.end(),
                                         [](const auto& a, const auto& b) { return a.first == b.first; });
    if (same != keys.end()) return std::next(same)->second;
  }
  return 0;
}

std::string emptiness_of(const Document& document, const Schema& schema) {
  constexpr Node_id root = Document::root;
  if (document.node(root).type != Node_type::object) return "a schema is one JSON object";
  const Node_id format = document.member(root, "format");
  if (format != 0 && document.node(format).type == Node_type::string &&
      document.string(format).starts_with("ohmlore/"))
    return fmt::format("it is a document of {}, and no JSON Schema", printable(document.string(format)));
  return schema.asks
             ? ""
             : "it checks nothing: its root has none of the keywords with which draft-07 asks for something";
}

std::string problem_of(const Read_result& read, const Schema& schema) {
  const Document& document = read.document;
  const auto error = std::find_if(read.findings.begin(), read.findings.end(),
                                  [](const Finding& finding) { return finding.severity == Severity::error; });
  if (!document.whole() && error != read.findings.end())
    return fmt::format("{}: {}", place(document, error->region.first), error->message);
  if (!schema) return fmt::format("{}: {}", document.name(), schema.problem);
  if (const Node_id key = repeated_key(document); key != 0)
    return fmt::format("{}: this object has `{}` twice", place(document, document.region(key).first),
                       printable(document.string(key)));
  if (const std::string empty = emptiness_of(document, schema); !empty.empty())
    return fmt::format("{}: {}", document.name(), empty);
  return {};
}

// Finds the keyword that refuses a value: in every schema that may apply to it. Where a pattern or another
// part of the document decides which do, nothing is said.
class Search {
public:
  Search(const Document& schema, const Document& profile, std::vector<Node_id> way, std::string_view keyword)
      : schema_(schema), profile_(profile), way_(std::move(way)), keyword_(keyword) {}

  Node_id only_one() {
    in(Document::root, 0);
    return undecided_ || found_.size() != 1 ? 0 : found_.front();
  }

private:
  void in(Node_id schema, std::size_t at) {
    constexpr std::size_t most_steps = 10000; // over references to references there may be very many ways
    if (schema == 0 || schema_.node(schema).type != Node_type::object || undecided_) return;
    if (++steps_ > most_steps) undecided_ = true;
    if (const Node_id reference = schema_.member(schema, "$ref"); reference != 0) {
      const Text target = schema_.string(reference); // compiled: "#" and a pointer
      undecided_ = undecided_ || target.find('%') != Text::npos;
      return in(schema_.find(target.substr(1)), at);
    }
    if (schema_.member(schema, "dependencies") != 0) undecided_ = true;
    for (const std::string_view key : {"allOf", "anyOf", "oneOf"})
      each_item(schema_.member(schema, key), [&](Node_id inner) { in(inner, at); });
    for (const std::string_view key : {"then", "else"}) in(schema_.member(schema, key), at);
    if (at + 1 < way_.size()) return below(schema, at + 1);
    const Node_id demand = schema_.member(schema, keyword_);
    if (demand != 0 && std::find(found_.begin(), found_.end(), demand) == found_.end())
      found_.push_back(demand);
  }

  void below(Node_id schema, std::size_t at) {
    if (const Node_id key = profile_.key_of(way_[at]); key != 0) {
      const Node_id properties = schema_.member(schema, "properties");
      const Node_id named = properties != 0 ? schema_.member(properties, profile_.string(key)) : 0;
      if (schema_.member(schema, "patternProperties") != 0) undecided_ = true;
      return in(named != 0 ? named : schema_.member(schema, "additionalProperties"), at);
    }
    const Node_id items = schema_.member(schema, "items");
    if (schema_.member(schema, "contains") != 0 ||
        (items != 0 && schema_.node(items).type == Node_type::array))
      undecided_ = true;
    in(items, at);
  }

  template <class F>
  void each_item(Node_id list, F f) {
    if (list == 0 || schema_.node(list).type != Node_type::array) return;
    for (Node_id item = list + 1; item < schema_.node(list).next; item = schema_.node(item).next) f(item);
  }

  const Document& schema_;
  const Document& profile_;
  const std::vector<Node_id> way_; // from the root to the value
  const std::string_view keyword_;
  std::vector<Node_id> found_;
  std::size_t steps_ = 0;
  bool undecided_ = false;
};

}

House_schema read_house_schema(std::string name, std::string_view bytes) {
  House_schema house;
  // It is none of our kinds: of the findings only those count without which there is no tree.
  Read_result read = read_json(std::move(name), bytes);
  if (read.document.whole()) house.schema = compile_schema(bytes);
  house.problem = problem_of(read, house.schema);
  house.document = std::move(read.document);
  return house;
}

Node_id demanded_at(const House_schema& house, const Document& profile, const Schema_refusal& refusal) {
  Node_id value = profile.find(refusal.pointer);
  if (value == 0 || refusal.keyword.empty()) return 0;
  if (refusal.keyword == "additionalProperties" || refusal.keyword == "propertyNames")
    value = profile.node(value).parent;
  std::vector<Node_id> way;
  for (; value != 0; value = profile.node(value).parent) way.push_back(value);
  std::reverse(way.begin(), way.end());
  return Search(house.document, profile, std::move(way), refusal.keyword).only_one();
}

}
