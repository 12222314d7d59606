#include "exchange/diff_values.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "text/cut.h"

namespace ohmlore {
namespace {

// A key that is new to the format is taken for meaning until somebody says otherwise here.
constexpr std::string_view explaining_keys[] = {
    "$schema", "assembly", "conditions", "date",          "edition", "format", "how",  "instrument", "keying",
    "licence", "method",   "name",       "not_decidable", "note",    "number", "page", "samples",    "signal",
    "source",  "sources",  "table",      "title",         "waivers", "where",  "why"};

Quantity_grammar grammar_of(Shape shape) {
  return shape == Shape::tolerance ? Quantity_grammar::tolerance
         : shape == Shape::range   ? Quantity_grammar::range
                                   : Quantity_grammar::quantity;
}

bool is_quantity(Shape shape) {
  return shape == Shape::quantity || shape == Shape::tolerance || shape == Shape::range;
}

bool same(const Quantity& a, const Quantity& b) {
  return a.si == b.si && a.dimension == b.dimension && a.form == b.form;
}

// The step that a reader wants beside two texts, with a space before it; nothing where there is none.
std::string step(const Quantity& a, const Quantity& b) {
  return a.dimension == b.dimension && a.si != b.si
             ? fmt::format(" ({})", step_between(a.si, b.si, a.dimension))
             : std::string();
}

struct Read {
  bool equal = false;
  std::string step;
};

Read read_both(const Field& field, Shape shape, Text a, Text b) {
  if (shape == Shape::quantity) {
    const auto left = parse_quantity(a, field.dimensions), right = parse_quantity(b, field.dimensions);
    if (left.value && right.value) return {same(*left.value, *right.value), step(*left.value, *right.value)};
  } else if (shape == Shape::range) {
    const auto left = parse_range(a, field.dimensions), right = parse_range(b, field.dimensions);
    if (left.value && right.value) {
      const bool equal = same(left.value->low, right.value->low) && same(left.value->high, right.value->high);
      return {equal, left.value->single && right.value->single ? step(left.value->low, right.value->low)
                                                               : std::string()};
    }
  } else {
    const auto left = parse_tolerance(a, field.dimensions), right = parse_tolerance(b, field.dimensions);
    if (left.value && right.value) {
      const Tolerance &x = *left.value, &y = *right.value;
      if (x.dimension != y.dimension) return {};
      const bool equal = x.minus == y.minus && x.plus == y.plus;
      const bool narrower = y.minus <= x.minus && y.plus <= x.plus;
      const bool wider = y.minus >= x.minus && y.plus >= x.plus;
      return {equal, equal ? "" : narrower ? " (narrower)" : wider ? " (wider)" : ""};
    }
  }
  return {a == b, {}};
}

}

bool explains(const Field& field) {
  return field.target != Target::contact && // `where` of a hazard
         std::binary_search(std::begin(explaining_keys), std::end(explaining_keys), field.key);
}

bool order_matters(const Field& field) {
  return field.key == "suspects" || field.key == "decided_by" || field.key == "before";
}

std::string shown(std::string_view text) { return shortened(text, 60); }

// Two texts that begin alike for long are shown from the words before they part.
std::string shown_apart(std::string_view left, std::string_view right) {
  const std::size_t most = std::min(left.size(), right.size());
  const auto parted =
      std::mismatch(left.begin(), left.begin() + static_cast<std::ptrdiff_t>(most), right.begin());
  std::size_t from = static_cast<std::size_t>(parted.first - left.begin());
  if (from < 40) return fmt::format("\"{}\" becomes \"{}\"", shown(left), shown(right));
  const std::size_t blank = left.rfind(' ', from - 20);
  from = blank < from && blank > from - 40 ? blank + 1 : begin_of_character(left, from - 20);
  return fmt::format("\"…{}\" becomes \"…{}\"", shown(left.substr(from)), shown(right.substr(from)));
}

std::string step_between(double older, double newer, Dimension dimension) {
  if (dimension == Dimension::temperature || dimension == Dimension::temperature_difference)
    return fmt::format("{}{}", newer >= older ? "+" : "",
                       describe(newer - older, Dimension::temperature_difference));
  if (older == 0) return fmt::format("from 0");
  const double share = newer / older - 1;
  // A factor says more than hundreds of percent, and a slipped prefix is seen at once.
  if (newer > 0 && older > 0 && (newer >= 3 * older || 3 * newer <= older))
    return newer > older ? fmt::format("{:.4g} times as much", newer / older)
                         : fmt::format("{:.4g} times less", older / newer);
  return fmt::format("{}{}", share >= 0 ? "+" : "", describe(share, Dimension::ratio, 3));
}

std::string canonical_text(const Field& field, const Type& type, const Document& document, Node_id node) {
  if (document.node(node).type != Node_type::string) return std::string(document.written(node));
  const Text text = document.string(node);
  if (!is_quantity(type.shape)) return std::string(text);
  std::string canonical = canonical_spelling(text, grammar_of(type.shape), field.dimensions);
  return canonical.empty() ? std::string(text) : canonical;
}

std::string value_meaning(const Field& field, const Type& type, const Document& document, Node_id node) {
  if (document.node(node).type != Node_type::string) return std::string(document.written(node));
  const Text text = document.string(node);
  const auto quantity = [](const Quantity& q) {
    return fmt::format("{:a} {} {}", q.si, static_cast<int>(q.dimension), static_cast<int>(q.form));
  };
  if (type.shape == Shape::quantity) {
    if (const auto read = parse_quantity(text, field.dimensions); read.value) return quantity(*read.value);
  } else if (type.shape == Shape::range) {
    if (const auto read = parse_range(text, field.dimensions); read.value)
      return fmt::format("{} to {}", quantity(read.value->low), quantity(read.value->high));
  } else if (type.shape == Shape::tolerance) {
    if (const auto read = parse_tolerance(text, field.dimensions); read.value)
      return fmt::format("{:a} {:a} {}", read.value->minus, read.value->plus,
                         static_cast<int>(read.value->dimension));
  }
  return std::string(text);
}

std::string joined(const std::vector<std::string>& texts) {
  std::string all;
  for (const std::string& text : texts) all += fmt::format("{}:{}", text.size(), text);
  return all;
}

std::string json_meaning(const Document& document, Node_id node) {
  const Node& value = document.node(node);
  if (value.type == Node_type::string) return fmt::format("\"{}", document.string(node));
  if (value.type != Node_type::array && value.type != Node_type::object)
    return std::string(document.written(node));
  const bool object = value.type == Node_type::object;
  std::vector<std::pair<Text, Node_id>> held;
  for (Node_id at = node + 1; at < value.next; at = document.node(at).next) {
    const Text key = object ? document.string(at++) : Text();
    held.emplace_back(key, at);
  }
  std::sort(held.begin(), held.end()); // items have no key and keep their order, as do members of one key
  std::vector<std::string> texts;
  for (const auto& [key, at] : held)
    texts.insert(texts.end(), {std::string(key), json_meaning(document, at)});
  return (object ? "{" : "[") + joined(texts);
}

std::optional<Value_difference> value_difference(const Field& field, const Type& type, const Document& older,
                                                 Node_id a, const Document& newer, Node_id b) {
  const bool texts = older.node(a).type == Node_type::string;
  const std::string_view left = texts ? older.string(a) : older.written(a);
  const std::string_view right = texts ? newer.string(b) : newer.written(b);
  if (left == right) return std::nullopt;
  if (texts && is_quantity(type.shape)) {
    const Read read = read_both(field, type.shape, left, right);
    return Value_difference{read.equal, fmt::format("{} becomes {}{}", shown(left), shown(right), read.step)};
  }
  if (type.shape != Shape::text)
    return Value_difference{false, fmt::format("{} becomes {}", shown(left), shown(right))};
  return Value_difference{false, shown_apart(left, right)};
}

}
