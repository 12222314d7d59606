// From the tree to the records, with every structural check, steered by the descriptions alone.
#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "document/tape.h"

namespace ohmlore {
namespace {

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

std::string_view type_name(Node_type type) {
  switch (type) {
  case Node_type::null: return "null";
  case Node_type::boolean: return "true or false";
  case Node_type::number: return "a number";
  case Node_type::string: return "text";
  case Node_type::array: return "a list";
  case Node_type::object: return "an object";
  }
  return "";
}

// A written value, short enough for a message.
std::string shown(const Document& document, Node_id node) {
  constexpr std::size_t longest = 40;
  const Text written = document.written(node);
  if (written.size() <= longest) return printable(written);
  std::size_t end = longest;
  while (end > 0 && utf8_length(written, end) == 0) --end;
  return printable(written.substr(0, end)) + "…";
}

// "a", "a or b", "a, b or c"
std::string alternatives(std::span<const std::string_view> words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " or " : ", ";
    out += fmt::format("`{}`", words[i]);
  }
  return out;
}

const Field* field_of(const Record& record, int kind, std::string_view key, std::size_t& hint) {
  // Documents mostly keep the order of the description, so the search starts after the last hit.
  const std::size_t n = record.fields.size();
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t at = hint + i < n ? hint + i : hint + i - n;
    const Field& field = record.fields[at];
    if (field.key != key) continue;
    if (record.kinds != nullptr &&
        !(kind >= 0 ? field.in(static_cast<unsigned>(kind)) : field.kinds == every_kind))
      continue;
    hint = at + 1 < n ? at + 1 : 0;
    return &field;
  }
  return nullptr;
}

bool is_free_key(std::string_view key) { return key.starts_with("x_"); }

std::string with_article(std::string_view noun) {
  const bool vowel = !noun.empty() && std::string_view("aeiou").find(static_cast<char>(noun[0] | 0x20)) !=
                                          std::string_view::npos;
  std::string lower(noun);
  if (lower.size() < 2 || lower[1] < 'A' || lower[1] > 'Z') lower[0] = static_cast<char>(lower[0] | 0x20);
  return (vowel ? "an " : "a ") + lower;
}

// What a field holds, to stand inside a sentence.
std::string lower_doc(const Field& field) {
  std::string doc(field.doc);
  if (doc.ends_with('.')) doc.pop_back();
  if (!doc.empty() && (doc.size() < 2 || doc[1] < 'A' || doc[1] > 'Z'))
    doc[0] = static_cast<char>(doc[0] >= 'A' && doc[0] <= 'Z' ? doc[0] | 0x20 : doc[0]);
  return doc;
}

std::string record_name(const Record& record, int kind) {
  std::string name = with_article(record.title);
  if (kind >= 0)
    name += fmt::format(" of kind `{}`", record.kinds->words[static_cast<std::size_t>(kind)].text);
  return name;
}

}

Finding& Decoder::report(std::string_view rule, Node_id node, std::string message, Severity severity) {
  return findings_.emplace_back(finding_at(document_, rule, severity, node, std::move(message)));
}

void Decoder::decode_root() {
  const Node_id root = Document::root;
  if (document_.nodes_.size() <= root || !document_.whole_) return;
  if (document_.node(root).type != Node_type::object) {
    report("type-wrong", root,
           fmt::format("a document is one JSON object, here it is {}", type_name(document_.node(root).type)));
    return;
  }
  const Node_id kind = document_.member(root, "kind");
  int found = -1;
  if (kind != 0 && document_.node(kind).type == Node_type::string)
    for (std::size_t i = 0; i < Document_kind_words.words.size(); ++i)
      if (Document_kind_words.words[i].text == document_.string(kind)) found = static_cast<int>(i);

  if (const Node_id format_node = document_.member(root, "format"); format_node != 0 && !format(format_node))
    return;
  if (found < 0) {
    // Which keys belong here depends on the kind: only that is said, and no more.
    const std::string words = alternatives(std::vector<std::string_view>{"profile", "part", "corpus"});
    if (kind == 0)
      report("key-missing", root, fmt::format("a document needs `kind`: {}", words));
    else if (document_.node(kind).type != Node_type::string)
      report("type-wrong", kind,
             fmt::format("`kind` must be text, here it is {}", type_name(document_.node(kind).type)));
    else
      report("word-unknown", kind,
             fmt::format("{} is not a kind of document; it is one of {}", shown(document_, kind), words));
    if (document_.member(root, "format") == 0)
      report("key-missing", root, fmt::format("a document needs `format`: \"{}\"", format_tag));
    return;
  }
  const auto document_kind = static_cast<Document_kind>(found);
  const Record& description = document_record(document_kind);
  void* at = nullptr;
  switch (document_kind) {
  case Document_kind::profile:
    at = const_cast<Profile*>(document_.profile_ = document_.arena_.make<Profile>(1));
    break;
  case Document_kind::part: at = const_cast<Part*>(document_.part_ = document_.arena_.make<Part>(1)); break;
  case Document_kind::corpus:
    at = const_cast<Corpus*>(document_.corpus_ = document_.arena_.make<Corpus>(1));
    break;
  }
  static_cast<Record_base*>(at)->node = root;
  record(description, root, at);
}

// The version tag. False: no more can be said about this document.
bool Decoder::format(Node_id node) {
  if (document_.node(node).type != Node_type::string) return true; // reported as a field
  const Text tag = document_.string(node);
  if (tag == format_tag) return true;
  const std::string_view major = "ohmlore/1.";
  unsigned minor = 0;
  if (tag.starts_with(major)) {
    const std::string_view digits = tag.substr(major.size());
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), minor);
    const bool plain = digits.size() == 1 || (digits.size() == 2 && digits[0] != '0');
    if (plain && error == std::errc{} && end == digits.data() + digits.size()) {
      document_.minor_ = minor;
      if (minor > reader_minor)
        report(
            "format-newer", node,
            fmt::format(
                "written for ohmlore/1.{}; this program knows ohmlore/1.{} and keeps what it does not know",
                minor, reader_minor),
            Severity::note);
      return true;
    }
  }
  report("format-unsupported", node,
         fmt::format("{} is not a format that this program reads; it reads \"{}\"", shown(document_, node),
                     format_tag));
  return false;
}

int Decoder::kind_of(const Record& record, Node_id object) {
  const Node_id kind = document_.member(object, "kind");
  if (kind == 0 || document_.node(kind).type != Node_type::string) return -1;
  const Text word = document_.string(kind);
  for (std::size_t i = 0; i < record.kinds->words.size(); ++i)
    if (record.kinds->words[i].text == word) return static_cast<int>(i);
  return -1;
}

void Decoder::record(const Record& record, Node_id object, void* at) {
  const Node& n = document_.node(object);
  const int kind = record.kinds != nullptr ? kind_of(record, object) : -1;
  const bool known_kind = record.kinds == nullptr || kind >= 0;

  std::uint64_t seen = 0;
  Node_id first_of[64];
  std::vector<std::pair<Node_id, std::string_view>> unknown; // key, suggestion
  std::vector<Node_id> extra;
  std::size_t hint = 0;
  for (Node_id key = object + 1; key < n.next; key = document_.node(key + 1).next) {
    const Text name = document_.string(key);
    if (const Field* field = field_of(record, kind, name, hint)) {
      const auto index = static_cast<std::size_t>(field - record.fields.data());
      const std::uint64_t bit = std::uint64_t{1} << index;
      if (seen & bit) {
        report_duplicates(std::vector<Node_id>{first_of[index], key});
        continue;
      }
      seen |= bit;
      first_of[index] = key;
      value(*field, *field->member.type, key + 1, field->member.at(at));
      continue;
    }
    extra.push_back(key);
    if (is_free_key(name) || !known_kind) continue;
    std::vector<std::string_view> known;
    for (const Field& field : record.fields)
      if (record.kinds == nullptr || field.in(static_cast<unsigned>(kind))) known.push_back(field.key);
    unknown.emplace_back(key, nearest_word(name, known));
  }
  if (extra.size() > 1) report_duplicates(extra);
  for (const auto& [key, suggestion] : unknown) report_unknown(record, kind, key, suggestion);

  for (std::size_t i = 0; i < record.fields.size(); ++i) {
    const Field& field = record.fields[i];
    const bool required = known_kind && record.kinds != nullptr
                              ? field.required_in(static_cast<unsigned>(kind))
                              : field.required_always();
    if (!required || ((seen >> i) & 1u)) continue;
    // A misspelt key is one mistake, not two.
    const bool misspelt =
        std::any_of(unknown.begin(), unknown.end(), [&](const auto& u) { return u.second == field.key; });
    if (!misspelt) report_missing(record, field, object);
  }
}

void Decoder::report_duplicates(std::span<const Node_id> keys) {
  std::vector<Node_id> sorted(keys.begin(), keys.end());
  std::stable_sort(sorted.begin(), sorted.end(),
                   [&](Node_id a, Node_id b) { return document_.string(a) < document_.string(b); });
  for (std::size_t i = 1; i < sorted.size(); ++i) {
    if (document_.string(sorted[i]) != document_.string(sorted[i - 1])) continue;
    std::size_t first = i - 1;
    while (first > 0 && document_.string(sorted[first - 1]) == document_.string(sorted[i])) --first;
    report("key-duplicate", sorted[i],
           fmt::format("{} stands twice in this object; a reader would keep only one of them",
                       shown(document_, sorted[i])))
        .related.push_back(related_at(document_, sorted[first], "first here"));
  }
}

void Decoder::report_unknown(const Record& record, int kind, Node_id key, std::string_view suggestion) {
  const Text name = document_.string(key);
  std::string message =
      fmt::format("{} is not a key of {}", shown(document_, key), record_name(record, kind));
  std::vector<std::string_view> owners;
  if (record.kinds != nullptr)
    for (const Field& field : record.fields)
      if (field.key == name)
        for (std::size_t k = 0; k < record.kinds->words.size(); ++k)
          if (field.in(static_cast<unsigned>(k))) owners.push_back(record.kinds->words[k].text);
  Finding* finding = nullptr;
  const bool newer = document_.minor_ > reader_minor;
  const Severity severity = newer ? Severity::note : Severity::error;
  if (!owners.empty()) {
    message += fmt::format("; it belongs to kind {}", alternatives(owners));
    finding = &report("key-unknown", key, std::move(message), severity);
  } else if (!suggestion.empty()) {
    message += fmt::format("; did you mean `{}`?", suggestion);
    finding = &report("key-unknown", key, std::move(message), severity);
    const Node& n = document_.node(key);
    finding->fixes.push_back({fmt::format("rename to `{}`", suggestion),
                              Fix_safety::unsafe,
                              {{n.begin, n.end, fmt::format("\"{}\"", suggestion)}}});
  } else {
    message += newer ? "; it is kept as it is" : "; keys of your own begin with x_";
    report("key-unknown", key, std::move(message), severity);
  }
}

void Decoder::report_missing(const Record& record, const Field& field, Node_id object) {
  const int kind = record.kinds != nullptr ? kind_of(record, object) : -1;
  std::string example(field.example);
  if (example.size() > 60) example.clear();
  const Node_id key = document_.key_of(object);
  const Node& brace = document_.node(object);
  const std::uint32_t begin = key ? document_.node(key).begin : brace.begin;
  const std::uint32_t end = key ? document_.node(key).end : brace.begin + 1;
  findings_.push_back(finding_in(
      document_, field.absent_rule, Severity::error, object, begin, end,
      fmt::format("{} needs `{}` ({}){}", record_name(record, kind), field.key, lower_doc(field),
                  example.empty() ? "" : fmt::format(", for example \"{}\": {}", field.key, example))));
}

bool Decoder::is_type(const Field& field, Node_id node, Node_type wanted, std::string_view what) {
  const Node_type type = document_.node(node).type;
  if (type == wanted) return true;
  std::string message = fmt::format("`{}` must be {}, here it is {}", field.key, what, type_name(type));
  if (type == Node_type::number || type == Node_type::boolean)
    message += fmt::format(" ({})", shown(document_, node));
  if (type == Node_type::number && !field.dimensions.empty()) {
    report("unit-missing", node,
           fmt::format("`{}` is {} without a unit; write it as text with its unit, for example {}", field.key,
                       shown(document_, node), field.example));
    return false;
  }
  if (type == Node_type::null)
    message += "; leave the member out where there is no value";
  else if (!field.example.empty() && field.example.size() <= 60)
    message += fmt::format("; for example {}", field.example);
  report("type-wrong", node, std::move(message));
  return false;
}

void Decoder::value(const Field& field, const Type& type, Node_id node, void* at) {
  switch (type.shape) {
  case Shape::list: list(field, type, node, at); return;
  case Shape::map: map(field, type, node, at); return;
  case Shape::record: {
    if (!is_type(field, node, Node_type::object, "an object")) return;
    Scalar here;
    here.node = node;
    type.set(at, here);
    record(*type.record, node, at);
    return;
  }
  default: break;
  }
  Scalar found;
  found.node = node;
  if (scalar(field, type, node, found)) type.set(at, found);
}

bool Decoder::count(const Field& field, Node_id node, std::string_view what) {
  const std::int64_t n = document_.node(node).count;
  const std::int64_t most = field.limits.most != 0 ? field.limits.most : most_items;
  if (n >= field.limits.least && n <= most) return true;
  const bool few = n < field.limits.least;
  const std::string wanted = field.limits.least == most ? fmt::format("exactly {}", most)
                             : few                      ? fmt::format("at least {}", field.limits.least)
                                                        : fmt::format("at most {}", most);
  const bool as_absent = few && field.absent_rule != "key-missing";
  report(as_absent ? field.absent_rule : "count-out-of-limits", node,
         fmt::format("`{}` has {} {}; it must have {}{}", field.key, n, what, wanted,
                     as_absent ? fmt::format(" ({})", lower_doc(field)) : ""));
  return false;
}

void Decoder::list(const Field& field, const Type& type, Node_id node, void* at) {
  if (!is_type(field, node, Node_type::array, "a list")) return;
  count(field, node, "items");
  const Node& n = document_.node(node);
  auto* item = static_cast<std::byte*>(type.grow(at, document_.arena_, n.count, node));
  for (Node_id child = node + 1; child < n.next; child = document_.node(child).next, item += type.stride)
    value(field, *type.item, child, item);
}

void Decoder::map(const Field& field, const Type& type, Node_id node, void* at) {
  if (!is_type(field, node, Node_type::object, "an object keyed by id")) return;
  count(field, node, "entries");
  const Node& n = document_.node(node);
  auto* item = static_cast<std::byte*>(type.grow(at, document_.arena_, n.count, node));
  std::vector<Node_id> keys;
  keys.reserve(n.count);
  for (Node_id key = node + 1; key < n.next; key = document_.node(key + 1).next, item += type.stride) {
    keys.push_back(key);
    const Text id = document_.string(key);
    if (!is_id(id))
      report(
          "id-malformed", key,
          fmt::format(
              "{} is not an id: letters, digits, `_` and `-`, beginning with a letter or digit, at most 64",
              shown(document_, key)));
    value(field, *type.item, key + 1, type.entry(item, id, key));
  }
  report_duplicates(keys);
}

// What every text must be, keys apart. False: nothing more to say about it.
bool Decoder::well_formed(Node_id node) {
  const Node& n = document_.node(node);
  const Text text = document_.string(node);
  if (text.size() > most_text) {
    report("text-too-long", node,
           fmt::format("this text has {} bytes; a text has at most {}", text.size(), most_text));
    return false;
  }
  for (std::size_t i = 0; i < text.size();) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte >= 0x20 && byte < 0x7F) {
      ++i;
      continue;
    }
    if (n.escaped && utf8_length(text, i) == 0) {
      // Not escaped, it is a finding of the encoding; escaped, it can only be half of a surrogate pair.
      report("text-forbidden-character", node,
             "half of a surrogate pair stands in this text; both halves are needed for one character");
      return false;
    }
    const char32_t c = next_code_point(text, i);
    if (c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0xFFFE || c == 0xFFFF) {
      report("text-forbidden-character", node,
             fmt::format("the control or non-character U+{:04X} stands in this text; remove it",
                         static_cast<std::uint32_t>(c)));
      return false;
    }
  }
  return true;
}

bool Decoder::text(const Field& field, Node_id node, Scalar& scalar) {
  if (!is_type(field, node, Node_type::string, "text")) return false;
  scalar.text = document_.string(node);
  if (scalar.text.empty() && field.form != Form::any) {
    report("text-empty", node,
           fmt::format("`{}` is empty; leave the member out where there is nothing to say", field.key));
    return false;
  }
  if (!well_formed(node)) return false;
  if (!field.constant.empty()) {
    if (field.key == "format" || scalar.text == field.constant) return true; // format: see there
    report("word-unknown", node, fmt::format("`{}` must be \"{}\" here", field.key, field.constant));
    return false;
  }
  const Text t = scalar.text;
  switch (field.form) {
  case Form::free:
  case Form::any: return true;
  case Form::id:
    if (is_id(t)) return true;
    report("id-malformed", node,
           fmt::format(
               "{} is not an id: letters, digits, `_` and `-`, beginning with a letter or digit, at most 64",
               shown(document_, node)));
    return false;
  case Form::date:
    if (is_date(t)) return true;
    report("text-malformed", node,
           fmt::format("{} is not a date; write YYYY-MM or YYYY-MM-DD, for example \"2021-03\"",
                       shown(document_, node)));
    return false;
  case Form::country:
    if (t.size() == 2 && t[0] >= 'A' && t[0] <= 'Z' && t[1] >= 'A' && t[1] <= 'Z') return true;
    report("text-malformed", node,
           fmt::format("{} is not a country code; write two capital letters (ISO 3166-1), for example \"IE\"",
                       shown(document_, node)));
    return false;
  case Form::pointer:
    if (t[0] == '/') return true;
    report("text-malformed", node,
           fmt::format("{} is not a JSON Pointer; it begins with `/`, for example \"/components/pump\"",
                       shown(document_, node)));
    return false;
  case Form::path:
    if (is_inner_path(t)) return true;
    report("text-malformed", node,
           fmt::format("{} is not a path inside the corpus; write it relative to the root, with `/`, for "
                       "example \"parts\"",
                       shown(document_, node)));
    return false;
  }
  return true;
}

bool Decoder::word(const Field& field, const Type& type, Node_id node, Scalar& scalar) {
  if (!is_type(field, node, Node_type::string, "one of its words")) return false;
  const Text t = document_.string(node);
  const std::span<const Word> words = type.words->words;
  for (std::size_t i = 0; i < words.size(); ++i)
    if (words[i].text == t && (field.constant.empty() || field.constant == t)) {
      scalar.word = static_cast<std::uint8_t>(i);
      return true;
    }
  std::vector<std::string_view> known;
  for (const Word& w : words) known.push_back(w.text);
  const std::string_view near = nearest_word(t, known);
  std::string message = fmt::format("{} is not a word that `{}` knows", shown(document_, node), field.key);
  message += near.empty() ? fmt::format("; it is one of {}", alternatives(known))
                          : fmt::format("; did you mean `{}`?", near);
  Finding& finding = report("word-unknown", node, std::move(message));
  if (!near.empty()) {
    const Node& n = document_.node(node);
    finding.fixes.push_back({fmt::format("write `{}`", near),
                             Fix_safety::unsafe,
                             {{n.begin, n.end, fmt::format("\"{}\"", near)}}});
  }
  return false;
}

bool Decoder::integer(const Field& field, Node_id node, Scalar& scalar) {
  if (!is_type(field, node, Node_type::number, "a whole number")) return false;
  const Text written = document_.written(node);
  if (written.find_first_of(".eE") != Text::npos) {
    report("type-wrong", node,
           fmt::format("`{}` must be a whole number, here it is {}", field.key, shown(document_, node)));
    return false;
  }
  const auto [end, error] = std::from_chars(written.data(), written.data() + written.size(), scalar.integer);
  if (error == std::errc{} && scalar.integer >= field.limits.least && scalar.integer <= field.limits.most)
    return true;
  report("number-out-of-limits", node,
         fmt::format("`{}` is {}; it must lie between {} and {}", field.key, shown(document_, node),
                     field.limits.least, field.limits.most));
  return false;
}

bool Decoder::quantity(const Field& field, const Type& type, Node_id node, Scalar& scalar) {
  if (!is_type(field, node, Node_type::string, "text with a unit")) return false;
  const Text t = document_.string(node);
  if (t.empty()) {
    report("text-empty", node,
           fmt::format("`{}` is empty; leave the member out where there is no value", field.key));
    return false;
  }
  if (!well_formed(node)) return false;
  std::optional<Unit_problem> problem;
  Quantity_grammar grammar = Quantity_grammar::quantity;
  auto take = [&]<class T>(Parsed<T> parsed, T& into) {
    if (parsed.value)
      into = *parsed.value;
    else
      problem = std::move(parsed.problem);
  };
  if (type.shape == Shape::tolerance) {
    grammar = Quantity_grammar::tolerance;
    take(parse_tolerance(t, field.dimensions), scalar.tolerance);
  } else if (type.shape == Shape::range && !field.single) {
    grammar = Quantity_grammar::range;
    take(parse_range(t, field.dimensions), scalar.range);
  } else {
    take(parse_quantity(t, field.dimensions), scalar.quantity);
    scalar.range = {scalar.quantity, scalar.quantity, true};
  }
  if (!problem) {
    document_.quantities_.push_back({node, grammar, field.dimensions});
    return true;
  }
  const Node& n = document_.node(node);
  const std::uint32_t inside = n.begin + 1;
  const bool exact = !n.escaped && problem->end <= n.end - n.begin - 2 && problem->begin < problem->end;
  std::string message = fmt::format("`{}`: {}", field.key, problem->detail);
  if (!problem->suggestion.empty()) message += fmt::format("; write \"{}\"", problem->suggestion);
  Finding& finding = findings_.emplace_back(finding_in(
      document_, rule_of(problem->kind), Severity::error, node, exact ? inside + problem->begin : n.begin,
      exact ? inside + problem->end : n.end, std::move(message)));
  if (!problem->suggestion.empty()) {
    // The reading is certain only where the characters are: everything else is for the contributor to decide.
    const bool certain =
        problem->kind == Unit_problem::Kind::look_alike || problem->kind == Unit_problem::Kind::decimal_comma;
    finding.fixes.push_back({fmt::format("write \"{}\"", problem->suggestion),
                             certain ? Fix_safety::safe : Fix_safety::unsafe,
                             {{n.begin, n.end, fmt::format("\"{}\"", problem->suggestion)}}});
  }
  return false;
}

bool Decoder::scalar(const Field& field, const Type& type, Node_id node, Scalar& scalar) {
  bool good = false;
  switch (type.shape) {
  case Shape::text: good = text(field, node, scalar); break;
  case Shape::boolean:
    good = is_type(field, node, Node_type::boolean, "true or false");
    scalar.boolean = document_.node(node).truth;
    break;
  case Shape::integer: good = integer(field, node, scalar); break;
  case Shape::word: good = word(field, type, node, scalar); break;
  case Shape::contact: {
    if (!is_type(field, node, Node_type::string, "a contact, connector and pin")) return false;
    const Text t = document_.string(node);
    const std::size_t dot = std::min(t.find('.'), t.size());
    scalar.contact = {t.substr(0, dot), dot < t.size() ? t.substr(dot + 1) : Text{}};
    good = is_id(scalar.contact.connector) && is_id(scalar.contact.pin);
    if (!good)
      report("contact-malformed", node,
             fmt::format(
                 "{} is not a contact; write connector and pin with a point between, for example \"X4.1\"",
                 shown(document_, node)));
    break;
  }
  case Shape::quantity:
  case Shape::tolerance:
  case Shape::range: good = quantity(field, type, node, scalar); break;
  default: break;
  }
  if (good && field.target != Target::none) document_.references_.push_back({node, field.target});
  return good;
}

Read_result read_json(std::string name, std::string_view bytes) {
  Read_result result;
  Tape_builder tape(result.document, result.findings);
  tape.load(std::move(name), bytes);
  tape.build();
  Decoder(result.document, result.findings).decode_root();
  std::stable_sort(result.findings.begin(), result.findings.end(),
                   [](const Finding& a, const Finding& b) { return a.region.begin < b.region.begin; });
  return result;
}

}
