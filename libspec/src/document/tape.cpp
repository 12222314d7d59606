// The tree over RapidJSON's events. RapidJSON decides what JSON is; this file only notes where it stands.
#include "document/tape.h"

#include <cstring>

#include <fmt/format.h>
#include <rapidjson/error/en.h>
#include <rapidjson/reader.h>

namespace ohmlore {
namespace {

// No recursion (deep nesting is bounded by memory, not by the stack); number text is read from the source,
// since a double would lose the written digits. Encoding is checked beforehand, to report every place and not
// the first.
constexpr unsigned parse_flags = rapidjson::kParseIterativeFlag | rapidjson::kParseNumbersAsStringsFlag;

struct Handler {
  // Tell() is the first byte of a string, number or bracket, and one past a literal: pinned by
  // tests/unit/tape.cpp.
  const rapidjson::StringStream& stream;
  std::string_view text;
  std::vector<Node>& nodes;
  std::vector<Text>& decoded;
  Arena& arena;
  Node_id open = 0;                              // innermost container that is kept
  unsigned depth = 0;                            // of containers, kept or not
  std::size_t too_deep = std::string_view::npos; // first container beyond the limit

  std::uint32_t here() const { return static_cast<std::uint32_t>(stream.Tell()); }

  bool push(Node_type type, std::uint32_t begin, std::uint32_t end, bool key = false) {
    if (depth > most_depth) return true;
    Node node;
    node.begin = begin;
    node.end = end;
    node.type = type;
    node.key = key;
    node.parent = open;
    node.next = static_cast<Node_id>(nodes.size() + 1);
    if (open != 0 && !key) ++nodes[open].count;
    nodes.push_back(node);
    return true;
  }

  bool literal(Node_type type, std::uint32_t length) { return push(type, here() - length, here()); }
  bool Null() { return literal(Node_type::null, 4); }
  bool Bool(bool truth) {
    literal(Node_type::boolean, truth ? 4 : 5);
    if (depth <= most_depth) nodes.back().truth = truth;
    return true;
  }
  bool Int(int) { return false; } // never called: numbers come as text
  bool Uint(unsigned) { return false; }
  bool Int64(std::int64_t) { return false; }
  bool Uint64(std::uint64_t) { return false; }
  bool Double(double) { return false; }
  bool RawNumber(const char*, rapidjson::SizeType, bool) {
    const std::uint32_t begin = here();
    std::size_t end = text.find_first_not_of("+-.0123456789Ee", begin);
    if (end == std::string_view::npos) end = text.size();
    return push(Node_type::number, begin, static_cast<std::uint32_t>(end));
  }

  bool any_string(const char* value, std::size_t length, bool key) {
    if (depth > most_depth) return true;
    const std::uint32_t begin = here();
    const std::string_view raw = text.substr(begin + 1);
    if (std::memchr(raw.data(), '\\', std::min(length, raw.size())) == nullptr)
      return push(Node_type::string, begin, begin + static_cast<std::uint32_t>(length) + 2, key);
    std::size_t end = 0;
    while (raw[end] != '"') end += raw[end] == '\\' ? 2 : 1;
    push(Node_type::string, begin, begin + static_cast<std::uint32_t>(end) + 2, key);
    char* copy = arena.make<char>(length + 1);
    std::memcpy(copy, value, length);
    nodes.back().escaped = true;
    nodes.back().count = static_cast<std::uint32_t>(decoded.size());
    decoded.emplace_back(copy, length);
    return true;
  }
  bool String(const char* value, rapidjson::SizeType length, bool) {
    return any_string(value, length, false);
  }
  bool Key(const char* value, rapidjson::SizeType length, bool) { return any_string(value, length, true); }

  bool start(Node_type type) {
    if (depth == most_depth && too_deep == std::string_view::npos) too_deep = here();
    if (depth < most_depth) {
      push(type, here(), here() + 1);
      open = static_cast<Node_id>(nodes.size() - 1);
    }
    ++depth;
    return true;
  }
  bool finish(std::uint32_t end) {
    --depth;
    if (depth < most_depth) {
      nodes[open].end = end;
      nodes[open].next = static_cast<Node_id>(nodes.size());
      open = nodes[open].parent;
    }
    return true;
  }
  bool StartObject() { return start(Node_type::object); }
  bool StartArray() { return start(Node_type::array); }
  bool EndObject(rapidjson::SizeType) { return finish(here() + 1); }
  bool EndArray(rapidjson::SizeType) { return finish(here() + 1); }

  // After a syntax error: drop a key without value, close what is open.
  void close_all(std::uint32_t end) {
    if (nodes.size() > 1 && nodes.back().key) nodes.pop_back();
    for (; open != 0; open = nodes[open].parent) {
      nodes[open].end = end;
      nodes[open].next = static_cast<Node_id>(nodes.size());
    }
  }
};

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

// The word that stands at an offset, for messages.
std::string_view word_at(std::string_view text, std::size_t offset) {
  std::size_t end = offset;
  while (end < text.size() && (std::isalnum(static_cast<unsigned char>(text[end])) || text[end] == '_'))
    ++end;
  return text.substr(offset, std::min<std::size_t>(end - offset, 40));
}

struct Syntax_error {
  std::size_t begin;
  std::size_t end;
  std::string message;
};

// What is really wrong at the place where RapidJSON gave up.
Syntax_error explain(std::string_view text, std::size_t offset, rapidjson::ParseErrorCode code) {
  std::size_t before = offset;
  while (before > 0 && is_space(text[before - 1])) --before;
  const char previous = before > 0 ? text[before - 1] : '\0';
  if (offset >= text.size()) {
    const bool in_string = code == rapidjson::kParseErrorStringMissQuotationMark;
    if (text.find_first_not_of(" \t\r\n") == std::string_view::npos)
      return {0, 0, "the file is empty: a document is one JSON object"};
    return {text.size(), text.size(),
            in_string
                ? "the file ends inside a text: a closing quotation mark is missing"
                : "the file ends before the document does: a closing bracket, brace or value is missing"};
  }
  const char c = text[offset];
  if (c == '\0') return {offset, offset + 1, "a NUL byte stands here: remove it, JSON is plain text"};
  const std::string_view word = word_at(text, offset);
  if (code == rapidjson::kParseErrorStringMissQuotationMark) {
    // RapidJSON points at the text's start.
    return {offset, offset + 1, "this text has no closing quotation mark"};
  }
  if (static_cast<unsigned char>(c) < 0x20 && !is_space(c))
    return {
        offset, offset + 1,
        fmt::format(
            "a control character (U+{:04X}) stands here; write it as \\u{:04x} inside a text, or remove it",
            static_cast<unsigned>(c), static_cast<unsigned>(c))};
  switch (code) {
  case rapidjson::kParseErrorStringEscapeInvalid:
    return {offset, offset + 2, "this escape is not one of JSON: a backslash in a text is written \\\\"};
  case rapidjson::kParseErrorStringUnicodeEscapeInvalidHex:
    return {offset, offset + 2, "\\u needs four hexadecimal digits"};
  case rapidjson::kParseErrorStringInvalidEncoding:
    return {offset, offset + 1,
            "a line break or control character stands inside a text; write \\n, or close the text before it"};
  default: break;
  }
  if (text.substr(offset, 2) == "//" || text.substr(offset, 2) == "/*" || c == '#')
    return {offset, offset + 2,
            "JSON has no comments; put the words into a `note`, or into a key that begins with x_"};
  if (c == '\'') return {offset, offset + 1, "a text stands in double quotation marks, not single ones"};
  if (previous == ',' && (c == '}' || c == ']'))
    return {before - 1, before, fmt::format("a comma may not stand before `{}`: remove it", c)};
  if (c == ',' && (previous == '[' || previous == '{' || previous == ',' || previous == ':'))
    return {offset, offset + 1, "a value is missing before this comma"};
  if (!word.empty() && std::isalpha(static_cast<unsigned char>(word[0]))) {
    for (const auto& [wrong, right] : {std::pair<std::string_view, std::string_view>{"NaN", ""},
                                       {"nan", ""},
                                       {"Infinity", ""},
                                       {"inf", ""}})
      if (word == wrong)
        return {offset, offset + word.size(),
                fmt::format("JSON has no {}: leave the member out where there is no value", word)};
    for (const auto& [wrong, right] : {std::pair<std::string_view, std::string_view>{"True", "true"},
                                       {"TRUE", "true"},
                                       {"False", "false"},
                                       {"FALSE", "false"},
                                       {"None", "null"},
                                       {"NULL", "null"},
                                       {"Null", "null"}})
      if (word == wrong)
        return {offset, offset + word.size(), fmt::format("write `{}` instead of `{}`", right, word)};
  }
  if (code == rapidjson::kParseErrorDocumentRootNotSingular)
    return {offset, offset + 1, "something follows the end of the document: one file holds one JSON object"};
  if (code == rapidjson::kParseErrorObjectMissCommaOrCurlyBracket)
    return {offset, offset + 1,
            fmt::format("a comma or `}}` is missing before `{}`",
                        printable(text.substr(offset, std::max(1u, utf8_length(text, offset)))))};
  if (code == rapidjson::kParseErrorArrayMissCommaOrSquareBracket)
    return {offset, offset + 1,
            fmt::format("a comma or `]` is missing before `{}`",
                        printable(text.substr(offset, std::max(1u, utf8_length(text, offset)))))};
  if (code == rapidjson::kParseErrorObjectMissColon)
    return {offset, offset + 1, "a colon is missing after the key"};
  if (code == rapidjson::kParseErrorObjectMissName)
    return {offset, offset + 1, "a key in double quotation marks must stand here"};
  if (code == rapidjson::kParseErrorNumberMissFraction)
    return {offset, offset + 1, "a digit must follow the decimal point"};
  if (code == rapidjson::kParseErrorNumberMissExponent)
    return {offset, offset + 1, "a digit must follow the exponent's letter"};
  if (!word.empty())
    return {offset, offset + word.size(),
            fmt::format("`{}` is not a JSON value: a text needs double quotation marks", word)};
  return {offset, offset + 1, fmt::format("not JSON here: {}", rapidjson::GetParseError_En(code))};
}

}

void Tape_builder::report(std::string_view rule, std::size_t begin, std::size_t end, std::string message) {
  const std::size_t size = document_.text().size();
  findings_.push_back(finding_in(document_, rule, Severity::error, 0,
                                 static_cast<std::uint32_t>(std::min(begin, size)),
                                 static_cast<std::uint32_t>(std::min(end, size)), std::move(message)));
}

void Tape_builder::load(std::string name, std::string_view bytes) {
  document_.name_ = std::move(name);
  document_.text_.reserve(bytes.size() + 1);
  document_.text_.assign(bytes.begin(), bytes.end());
  document_.text_.push_back('\0'); // RapidJSON's stream ends at a NUL
  document_.nodes_.emplace_back();
}

void Tape_builder::check_encoding() {
  const std::string_view text = document_.text();
  constexpr int shown = 20;
  int count = 0;
  std::size_t last_line = 0;
  for (std::size_t i = find_invalid_utf8(text); i != std::string_view::npos;
       i = find_invalid_utf8(text, i + 1)) {
    // One finding for each line: a file in another encoding has one bad byte after the other.
    const std::size_t line = position_of(text, i).line;
    if (line == last_line) continue;
    last_line = line;
    if (++count > shown) break;
    const auto byte = static_cast<unsigned char>(text[i]);
    report("utf8-malformed", i, i + 1,
           fmt::format("byte 0x{:02X} is not UTF-8 here{}; save the file as UTF-8", byte,
                       byte == 0xB0   ? " (in Windows-1252 it is the degree sign)"
                       : byte == 0xB1 ? " (in Windows-1252 it is the plus-minus sign)"
                       : byte == 0xB5 ? " (in Windows-1252 it is the micro sign)"
                                      : ""));
  }
}

void Tape_builder::build() {
  const std::string_view text = document_.text();
  if (text.size() > most_bytes) {
    report("file-too-large", 0, 0,
           fmt::format("the file has {} bytes; a document has at most {} (16 MiB)", text.size(), most_bytes));
    return;
  }
  check_encoding();
  std::size_t start = 0;
  if (text.starts_with("\xEF\xBB\xBF")) {
    start = 3;
    Finding finding =
        finding_in(document_, "byte-order-mark", Severity::warning, 0, 0, 3,
                   "the file begins with a byte order mark; JSON is written without one (RFC 8259, 8.1)");
    finding.fixes.push_back({"remove the byte order mark", Fix_safety::safe, {{0, 3, ""}}});
    findings_.push_back(std::move(finding));
  }
  document_.nodes_.reserve(text.size() / 16 + 2);
  rapidjson::StringStream stream(document_.text_.data());
  stream.src_ += start;
  Handler handler{stream, text, document_.nodes_, document_.decoded_, document_.arena_};
  rapidjson::Reader reader;
  const rapidjson::ParseResult result = reader.Parse<parse_flags>(stream, handler);
  const bool stopped_early = !result.IsError() && stream.Tell() < text.size(); // at a NUL byte
  document_.whole_ = !result.IsError() && !stopped_early;
  if (result.IsError() || stopped_early) {
    const std::size_t offset = result.IsError() ? std::max(result.Offset(), start) : stream.Tell();
    handler.close_all(static_cast<std::uint32_t>(std::min(offset, text.size())));
    if (result.Code() == rapidjson::kParseErrorStringUnicodeSurrogateInvalid) {
      report("text-forbidden-character", offset, offset + 6,
             "this is half of a surrogate pair; both halves are needed for one character");
    } else if (result.Code() == rapidjson::kParseErrorNumberTooBig) {
      report("number-out-of-limits", offset, offset + 1, "this number is beyond what a document may hold");
    } else {
      Syntax_error error = explain(text, offset, result.Code());
      report("json-syntax", error.begin, error.end, std::move(error.message));
    }
  }
  if (handler.too_deep != std::string_view::npos)
    report("nesting-too-deep", handler.too_deep, handler.too_deep + 1,
           fmt::format("brackets and braces are nested more than {} deep", most_depth));
}

}
