// Texts, words, numbers, contacts and quantities: what they must be, and what is said where they are not.
#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "document/decoder.h"
#include "document/syntax.h"
#include "document/wording.h"
#include "units/plain.h"

namespace ohmlore {

std::string_view rule_of(Unit_problem::Kind kind) {
  switch (kind) {
  case Unit_problem::Kind::unit_missing: return "unit-missing";
  case Unit_problem::Kind::wrong_dimension: return "unit-of-other-dimension";
  case Unit_problem::Kind::unreadable: return "quantity-unreadable";
  case Unit_problem::Kind::decimal_comma: return "decimal-comma";
  case Unit_problem::Kind::look_alike: return "look-alike-refused";
  case Unit_problem::Kind::too_many_digits: return "digits-too-many";
  case Unit_problem::Kind::out_of_reach: return "quantity-out-of-reach";
  case Unit_problem::Kind::not_canonical: return "spelling-not-canonical";
  case Unit_problem::Kind::look_alike_accepted: return "look-alike-accepted";
  }
  return "quantity-unreadable";
}

namespace {

// As JSON writes it: 03 is no number.
bool is_integer(std::string_view text) {
  return text.size() < 20 && text.find_first_of(".eE") == std::string_view::npos && is_json_number(text);
}

}

// What to do about a value that says nothing.
std::string Decoder::instead_of_nothing(const Field& field, Node_id node) const {
  const Node_id key = document_.key_of(node);
  const bool needed =
      (field.required || field.required_by != 0) && key != 0 && document_.string(key) == field.key;
  return needed ? fmt::format("it is needed, for example {}", field.example)
                : "leave it out where there is nothing to say";
}

void Decoder::report_type(const Field& field, Node_id node, Node_type wanted, std::string_view what) {
  const Node& n = document_.node(node);
  const std::string name = value_name(document_, field, node);
  const std::string here = shown(document_, node);
  if (n.type == Node_type::null) {
    report("type-wrong", node, fmt::format("{} is null; {}", name, instead_of_nothing(field, node)));
    return;
  }
  if (n.type == Node_type::number && !field.dimensions.empty() && wanted == Node_type::string) {
    report("unit-missing", node,
           fmt::format("{} is {} without a unit; write it as text with its unit, for example {}", name, here,
                       field.example));
    return;
  }
  const bool simple = n.type != Node_type::array && n.type != Node_type::object;
  std::string message = fmt::format("{} must be {}, here it is {}{}", name, what, type_name(n.type),
                                    simple ? fmt::format(" ({})", here) : "");
  const Text inside = n.type == Node_type::string ? document_.string(node) : Text();
  const std::string_view example = short_example(field);
  const bool itself =
      name == fmt::format("`{}`", field.key); // else an item or an entry of what the example shows
  const bool unquoted = (wanted == Node_type::number && is_integer(inside)) ||
                        (wanted == Node_type::boolean && (inside == "true" || inside == "false"));
  if (n.type == Node_type::number && wanted == Node_type::string)
    message += fmt::format("; write \"{}\"", here);
  else if (unquoted)
    message += fmt::format("; write {} without quotation marks", inside);
  else if (!example.empty())
    message += itself ? fmt::format("; for example {}", example)
                      : fmt::format("; for example \"{}\": {}", field.key, example);
  Finding& finding = report("type-wrong", node, std::move(message));
  if (unquoted) offer(finding, node, std::string(inside), Fix_safety::safe);
}

bool Decoder::scalar(const Field& field, const Type& type, Node_id node) {
  bool good = false;
  switch (type.shape) {
  case Shape::text: good = text(field, node); break;
  case Shape::boolean:
    good = is_type(field, node, Node_type::boolean, "true or false");
    scalar_.boolean = document_.node(node).truth;
    break;
  case Shape::integer: good = integer(field, node); break;
  case Shape::word: good = word(field, type, node); break;
  case Shape::contact: good = contact(field, node); break;
  case Shape::quantity:
  case Shape::tolerance:
  case Shape::range: good = quantity(field, type, node); break;
  default: break;
  }
  if (good && field.target != Target::none) document_.references_.push_back({node, field.target});
  return good;
}

// What every text must be: not empty, not too long, without characters that XML or a terminal cannot carry.
bool Decoder::written_text(const Field& field, Node_id node) {
  const Node& n = document_.node(node);
  const Text text = document_.string(node);
  if (text.empty() && field.form != Form::any) {
    report(
        "text-empty", node,
        fmt::format("{} is empty; {}", value_name(document_, field, node), instead_of_nothing(field, node)));
    return false;
  }
  if (text.size() > most_text) {
    report("text-too-long", node,
           fmt::format("{} has {} bytes; a text has at most {}", value_name(document_, field, node),
                       text.size(), most_text));
    return false;
  }
  for (std::size_t i = plain_prefix(text); i < text.size(); i += plain_prefix(text.substr(i))) {
    const std::size_t at = i;
    const auto byte = static_cast<unsigned char>(text[i]);
    if (!n.escaped && utf8_length(text, i) == 0) return false; // a finding of the encoding, and enough of one
    const char32_t c = next_code_point(text, i);
    // Half of a surrogate pair: a finding of the tree, or of the encoding.
    if (byte == 0xED && at + 1 < text.size() && static_cast<unsigned char>(text[at + 1]) >= 0xA0)
      return false;
    if (c >= 0x20 && (c < 0x7F || c >= 0xA0) && c != 0xFFFE && c != 0xFFFF) continue;
    const bool space = c == '\n' || c == '\r' || c == '\t';
    const auto code = fmt::format("U+{:04X}", static_cast<std::uint32_t>(c));
    const std::string what =
        space ? fmt::format("{} ({})", c == '\t' ? "a tab" : "a line break", code)
              : fmt::format("the {} {}", c >= 0xFFFE ? "non-character" : "control character", code);
    const std::uint32_t begin = n.begin + 1 + static_cast<std::uint32_t>(at);
    const std::uint32_t end = n.begin + 1 + static_cast<std::uint32_t>(i);
    report_in("text-forbidden-character", node, n.escaped ? n.begin : begin, n.escaped ? n.end : end,
              fmt::format("{} stands in this text; {}", what, space ? "write a space" : "remove it"));
    return false;
  }
  return true;
}

bool Decoder::text(const Field& field, Node_id node) {
  if (!is_type(field, node, Node_type::string, "text") || !written_text(field, node)) return false;
  scalar_.text = document_.string(node);
  return field.form == Form::free || form(field, node, scalar_.text);
}

bool Decoder::form(const Field& field, Node_id node, Text text) {
  auto is_capital = [](char c) { return c >= 'A' && c <= 'Z'; };
  std::string_view rule = "text-malformed";
  std::string wanted;
  switch (field.form) {
  case Form::free:
  case Form::any: return true;
  case Form::id:
    if (is_id(text)) return true;
    rule = "id-malformed";
    wanted = fmt::format("an id: {}", id_problem(text));
    break;
  case Form::date:
    if (is_date(text)) return true;
    wanted = "a date; write YYYY-MM or YYYY-MM-DD, for example \"2021-03\"";
    break;
  case Form::country:
    if (text.size() == 2 && is_capital(text[0]) && is_capital(text[1])) return true;
    wanted = "a country code; write two capital letters (ISO 3166-1), for example \"IE\"";
    break;
  case Form::pointer:
    if (text[0] == '/') return true;
    wanted = "a JSON Pointer; it begins with `/`, for example \"/components/pump\"";
    break;
  case Form::path:
    if (is_inner_path(text)) return true;
    wanted = "a path inside the corpus; write it relative to the root, with `/`, for example \"parts\"";
    break;
  case Form::version:
    if (is_version(text)) return true;
    wanted = "a version; write two numbers with a point between, for example \"1.0\"";
    break;
  }
  report(rule, node, fmt::format("{} is not {}", shown(document_, node), wanted));
  return false;
}

bool Decoder::word(const Field& field, const Type& type, Node_id node) {
  if (!is_type(field, node, Node_type::string, "text")) return false;
  const Text written = document_.string(node);
  const std::span<const Word> words = type.words->words;
  for (std::size_t i = 0; i < words.size(); ++i)
    if (same_name(words[i].text, written)) {
      scalar_.word = static_cast<std::uint8_t>(i);
      return true;
    }
  std::vector<std::string_view> known;
  for (const Word& w : words) known.push_back(w.text);
  const std::string_view meant = meant_word(written, known);
  Finding& finding =
      report("word-unknown", node,
             fmt::format("{} cannot be {}; {}", value_name(document_, field, node), shown(document_, node),
                         meant.empty() ? fmt::format("it is one of {}{}", alternatives(known),
                                                     may_be_meant(described_by(written, words)))
                                       : fmt::format("did you mean \"{}\"?", meant)));
  offer_word(finding, node, meant);
  return false;
}

// A word that is only nearest may be the wrong one.
void Decoder::offer_word(Finding& finding, Node_id node, std::string_view meant) const {
  if (meant.empty()) return;
  const bool certain = same_word(document_.string(node), meant);
  offer(finding, node, fmt::format("\"{}\"", meant), certain ? Fix_safety::safe : Fix_safety::unsafe);
}

void Decoder::offer(Finding& finding, Node_id node, std::string text, Fix_safety safety) const {
  const Node& n = document_.node(node);
  finding.fixes.push_back({fmt::format("write {}", text), safety, {{n.begin, n.end, text}}});
}

bool Decoder::integer(const Field& field, Node_id node) {
  if (!is_type(field, node, Node_type::number, "a whole number")) return false;
  const Text written = document_.written(node);
  if (written.find_first_of(".eE") != Text::npos) {
    const std::size_t point = std::min(written.find('.'), written.size());
    const bool whole =
        point < written.size() && written.find_first_not_of('0', point + 1) == Text::npos; // "8.0"
    Finding& finding = report("type-wrong", node,
                              fmt::format("{} must be a whole number, here it is {}{}",
                                          value_name(document_, field, node), shown(document_, node),
                                          whole ? fmt::format("; write {}", written.substr(0, point))
                                                : fmt::format("; for example {}", field.example)));
    if (whole) offer(finding, node, std::string(written.substr(0, point)), Fix_safety::safe);
    return false;
  }
  const auto [end, error] = std::from_chars(written.data(), written.data() + written.size(), scalar_.integer);
  if (error == std::errc{} && scalar_.integer >= field.limits.least && scalar_.integer <= field.limits.most)
    return true;
  report("number-out-of-limits", node,
         fmt::format("{} is {}; it must lie between {} and {}", value_name(document_, field, node),
                     shown(document_, node), field.limits.least, field.limits.most));
  return false;
}

bool Decoder::contact(const Field& field, Node_id node) {
  if (!is_type(field, node, Node_type::string, "text: a connector and its pin")) return false;
  const Text text = document_.string(node);
  const std::size_t point = text.find('.');
  scalar_.contact = {};
  if (point != Text::npos) scalar_.contact = {text.substr(0, point), text.substr(point + 1)};
  if (is_id(scalar_.contact.connector) && is_id(scalar_.contact.pin)) return true;
  const std::size_t mark = text.find_last_of(":/- ");
  // Two words may be something else: the name of a component.
  const bool two =
      mark != Text::npos && is_id(text.substr(mark + 1)) && !full() &&
      document_.member(document_.member(Document::root, "connectors"), text.substr(0, mark)) != 0;
  report("contact-malformed", node,
         fmt::format(
             "{} is not a contact; write connector and pin with a point between, for example \"{}.{}\"",
             shown(document_, node), two ? text.substr(0, mark) : "X4", two ? text.substr(mark + 1) : "1"));
  return false;
}

static Quantity_grammar grammar_of(const Field& field, const Type& type) {
  if (type.shape == Shape::tolerance) return Quantity_grammar::tolerance;
  return type.shape == Shape::range && !field.single ? Quantity_grammar::range : Quantity_grammar::quantity;
}

bool Decoder::quantity(const Field& field, const Type& type, Node_id node) {
  if (!is_type(field, node, Node_type::string, "text with a unit")) return false;
  const Text text = document_.string(node);
  const Quantity_grammar grammar = grammar_of(field, type);
  const std::optional<Range> plain = units::read_plainly(text, grammar, field.dimensions);
  if (plain) {
    scalar_.range = *plain;
    scalar_.quantity = plain->low;
    if (grammar == Quantity_grammar::tolerance)
      scalar_.tolerance = {plain->low.si, plain->low.si, plain->low.dimension};
  } else if (!written_text(field, node) || !other_quantity(field, grammar, node)) {
    return false;
  }
  document_.quantities_.push_back({node, grammar, field.dimensions,
                                   grammar == Quantity_grammar::tolerance ? Range() : scalar_.range,
                                   plain.has_value()});
  return true;
}

// In any spelling.
bool Decoder::other_quantity(const Field& field, Quantity_grammar grammar, Node_id node) {
  const Text text = document_.string(node);
  std::optional<Unit_problem> problem;
  auto take = [&]<class T>(Parsed<T> parsed, T& into) {
    if (parsed.value)
      into = *parsed.value;
    else
      problem = std::move(parsed.problem);
  };
  switch (grammar) {
  case Quantity_grammar::tolerance: take(parse_tolerance(text, field.dimensions), scalar_.tolerance); break;
  case Quantity_grammar::range: take(parse_range(text, field.dimensions), scalar_.range); break;
  case Quantity_grammar::quantity:
    take(parse_quantity(text, field.dimensions), scalar_.quantity);
    scalar_.range = {scalar_.quantity, scalar_.quantity, true};
    break;
  }
  if (!problem) return true;
  const Node& n = document_.node(node);
  const bool exact = !n.escaped && problem->end <= text.size() && problem->begin < problem->end;
  std::string message = fmt::format("{}: {}", value_name(document_, field, node), problem->detail);
  if (!problem->suggestion.empty()) message += fmt::format("; write \"{}\"", problem->suggestion);
  Finding& finding = report_in(rule_of(problem->kind), node, exact ? n.begin + 1 + problem->begin : n.begin,
                               exact ? n.begin + 1 + problem->end : n.end, std::move(message));
  if (!problem->suggestion.empty()) {
    // The reading is certain only where the characters are: everything else is for the contributor to decide.
    const bool certain =
        problem->kind == Unit_problem::Kind::look_alike || problem->kind == Unit_problem::Kind::decimal_comma;
    offer(finding, node, fmt::format("\"{}\"", problem->suggestion),
          certain ? Fix_safety::safe : Fix_safety::unsafe);
  }
  return false;
}

}
