// The tree over RapidJSON's events. RapidJSON decides what JSON is; this file only notes where it stands.
#include "document/tape.h"

#include <algorithm>
#include <bit>
#include <charconv>
#include <cstdint>
#include <cstring>
#include <system_error>

#include <fmt/format.h>
#include <rapidjson/reader.h>

#include "document/findings.h"
#include "document/syntax.h"

namespace ohmlore {
namespace {

constexpr std::uint64_t eight_times(unsigned char byte) { return byte * 0x0101010101010101u; }

// Where the text that begins at `at` is to be looked at letter by letter: at a quotation mark, a backslash or
// a control character, or less than eight bytes before the end of the document.
char* behind_plain_letters(char* at, const char* end) {
  for (std::uint64_t eight; end - at >= 8; at += 8) {
    std::memcpy(&eight, at, 8);
    if constexpr (std::endian::native == std::endian::big) eight = __builtin_bswap64(eight);
    const std::uint64_t quote = eight ^ eight_times('"'), backslash = eight ^ eight_times('\\');
    // High bits: of a byte that is zero, or below a blank, before another such bit can borrow.
    const std::uint64_t special =
        ((quote - eight_times(1)) | (backslash - eight_times(1)) | (eight - eight_times(' '))) & ~eight &
        eight_times(0x80);
    if (special != 0) return at + std::countr_zero(special) / 8;
  }
  return at;
}

// RapidJSON begins to write where a text begins, behind its quotation mark (and where a number does). What is
// plain of it stands there already.
struct Stream : rapidjson::InsituStringStream {
  const char* end;
  Stream(char* text, std::size_t size) : rapidjson::InsituStringStream(text), end(text + size) {}
  char* PutBegin() {
    char* const begin = src_;
    if (begin != head_ && begin[-1] == '"') src_ = behind_plain_letters(begin, end);
    dst_ = src_;
    return begin;
  }
};

}
}

template <>
struct rapidjson::StreamTraits<ohmlore::Stream> : rapidjson::StreamTraits<rapidjson::InsituStringStream> {};

namespace ohmlore {
namespace {

// In place, but on a copy: the bytes of the document stay as they are. Number text is read from those, since
// a double would lose the written digits. Encoding is checked beforehand, to report every place and not the
// first. The handler stops at most_depth, which bounds the recursion.
constexpr unsigned parse_flags = rapidjson::kParseNumbersAsStringsFlag | rapidjson::kParseInsituFlag;

struct Handler {
  // Tell() is the first byte of a string or number, and one past a literal or bracket: pinned by
  // tests/unit/tape.cpp.
  Stream& stream;
  std::string_view text;
  std::vector<Node>& nodes;
  std::vector<Text>& decoded;
  Arena& arena;
  Node_id open = 0;  // innermost container
  Node_id count = 1; // of nodes, the placeholder among them
  unsigned depth = 0;
  bool perhaps_huge = false; // a number is long enough, or has an exponent

  std::uint32_t here() const { return static_cast<std::uint32_t>(stream.Tell()); }

  Node& push(Node_type type, std::uint32_t begin, std::uint32_t end) {
    return nodes.emplace_back(Node{begin, end, ++count, open, 0, type});
  }
  bool value(Node_type type, std::uint32_t begin, std::uint32_t end) {
    push(type, begin, end);
    ++nodes[open].count;
    return true;
  }

  bool Null() { return value(Node_type::null, here() - 4, here()); }
  bool Bool(bool truth) {
    value(Node_type::boolean, here() - (truth ? 4 : 5), here());
    nodes.back().truth = truth;
    return true;
  }
  bool Int(int) { return false; } // never called: numbers come as text
  bool Uint(unsigned) { return false; }
  bool Int64(std::int64_t) { return false; }
  bool Uint64(std::uint64_t) { return false; }
  bool Double(double) { return false; }
  bool RawNumber(const char*, rapidjson::SizeType length, bool) {
    constexpr rapidjson::SizeType least_with_exponent = 5, least = 309; // 2e308, and its digits
    const std::string_view number = text.substr(here(), length);
    if (length >= least_with_exponent && !perhaps_huge)
      perhaps_huge = length >= least || number.find_first_of("eE") != std::string_view::npos;
    return value(Node_type::number, here(), here() + length);
  }

  void any_string(const char* value, std::uint32_t length) {
    const std::uint32_t begin = here();
    const char* written = text.data() + begin + 1;
    // Without escapes the text is as long as written. With escapes it is shorter, and a quotation mark at its
    // length is one that a backslash stands before.
    if (written[length] == '"' && (length == 0 || written[length - 1] != '\\'))
      push(Node_type::string, begin, begin + length + 2);
    else
      escaped_string(value, length, begin, written);
  }
  // Apart, so that nearly all texts need few registers.
  [[gnu::noinline]] void escaped_string(const char* value, std::uint32_t length, std::uint32_t begin,
                                        const char* written) {
    std::uint32_t end = 0;
    while (written[end] != '"') end += written[end] == '\\' ? 2 : 1;
    Node& node = push(Node_type::string, begin, begin + end + 2);
    node.escaped = true;
    node.count = static_cast<std::uint32_t>(decoded.size());
    char* copy = arena.make<char>(length + 1);
    std::memcpy(copy, value, length);
    decoded.emplace_back(copy, length);
  }
  bool String(const char* value, rapidjson::SizeType length, bool) {
    any_string(value, length);
    ++nodes[open].count;
    return true;
  }
  bool Key(const char* value, rapidjson::SizeType length, bool) {
    any_string(value, length);
    nodes.back().key = true;
    return true;
  }

  bool start(Node_type type) {
    if (depth == most_depth) return false;
    ++depth;
    value(type, here() - 1, here());
    open = count - 1;
    return true;
  }
  bool finish(std::uint32_t end) {
    --depth;
    nodes[open].end = end;
    nodes[open].next = count;
    open = nodes[open].parent;
    return true;
  }
  bool StartObject() { return start(Node_type::object); }
  bool StartArray() { return start(Node_type::array); }
  bool EndObject(rapidjson::SizeType) { return finish(here()); }
  bool EndArray(rapidjson::SizeType) { return finish(here()); }

  // Where the text stopped early: a key without its value is no member, and what is open is closed.
  void close_all(std::uint32_t end) {
    if (nodes.back().key) {
      nodes.pop_back();
      --count;
    }
    while (open != 0) finish(end);
  }
};

Syntax_stop stop_of(rapidjson::ParseErrorCode code) {
  switch (code) {
  case rapidjson::kParseErrorDocumentRootNotSingular: return Syntax_stop::after_root;
  case rapidjson::kParseErrorObjectMissName: return Syntax_stop::at_key;
  case rapidjson::kParseErrorObjectMissColon: return Syntax_stop::at_colon;
  case rapidjson::kParseErrorObjectMissCommaOrCurlyBracket: return Syntax_stop::in_object;
  case rapidjson::kParseErrorArrayMissCommaOrSquareBracket: return Syntax_stop::in_array;
  case rapidjson::kParseErrorStringUnicodeEscapeInvalidHex:
  case rapidjson::kParseErrorStringEscapeInvalid:
  case rapidjson::kParseErrorStringMissQuotationMark:
  case rapidjson::kParseErrorStringInvalidEncoding: return Syntax_stop::in_text;
  case rapidjson::kParseErrorNumberTooBig:
  case rapidjson::kParseErrorNumberMissFraction:
  case rapidjson::kParseErrorNumberMissExponent: return Syntax_stop::in_number;
  default: return Syntax_stop::at_value;
  }
}

}

Finding& Tape_builder::report(std::string_view rule, std::size_t begin, std::size_t end, std::string message,
                              Severity severity) {
  const std::size_t size = document_.text().size();
  return findings_.emplace_back(
      unplaced_finding(document_, rule, severity, 0, static_cast<std::uint32_t>(std::min(begin, size)),
                       static_cast<std::uint32_t>(std::min(end, size)), std::move(message)));
}

void Tape_builder::load(std::string name, std::string_view bytes) {
  document_.name_ = std::move(name);
  document_.text_.reserve(bytes.size() + 1);
  document_.text_.assign(bytes.begin(), bytes.end());
  document_.text_.push_back('\0'); // RapidJSON's stream ends at a NUL
}

// What the first bad byte of a line was in the encoding that is most often meant: from A1 on, Windows-1252
// has the characters of Unicode. Nothing where it may begin a longer sequence that was damaged.
static std::string meaning_in_windows_1252(std::string_view text, std::size_t at) {
  const auto byte = static_cast<unsigned char>(text[at]);
  const unsigned next = at + 1 < text.size() ? static_cast<unsigned char>(text[at + 1]) : 0u;
  if (byte <= 0xA0 || (byte >= 0xC0 && (next & 0xC0u) == 0x80u)) return {};
  std::string character;
  append_code_point(character, byte);
  return fmt::format(" (in Windows-1252 it is `{}`)", character);
}

// False: the text is in another encoding, and nothing more can be said about it.
bool Tape_builder::check_encoding() {
  const std::string_view text = document_.text();
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) {
    report("utf8-malformed", 0, 2, "the file is written in UTF-16; save it as UTF-8");
    return false;
  }
  // One finding for each line, and no more than a few: a file in another encoding has one bad byte after the
  // other.
  constexpr std::size_t shown = 5;
  std::size_t lines = 0, last = std::string_view::npos;
  for (std::size_t i = find_invalid_utf8(text); i != std::string_view::npos;
       i = find_invalid_utf8(text, i + 1)) {
    const bool same_line =
        last != std::string_view::npos && text.substr(last, i - last).find('\n') == std::string_view::npos;
    last = i;
    if (same_line || ++lines > shown) continue;
    const auto byte = static_cast<unsigned char>(text[i]);
    report("utf8-malformed", i, i + 1,
           fmt::format("byte 0x{:02X} is not UTF-8 here{}; save the file as UTF-8", byte,
                       meaning_in_windows_1252(text, i)));
  }
  if (lines > shown)
    findings_.back().message += fmt::format(" ({} more lines have such bytes)", lines - shown);
  return true;
}

void Tape_builder::build() {
  const std::string_view text = document_.text();
  if (text.size() > most_bytes) {
    report("file-too-large", 0, 0,
           fmt::format("the file has {} bytes or more; a document has at most {} (16 MiB)", text.size(),
                       most_bytes));
    return;
  }
  if (!check_encoding()) return;
  std::size_t start = 0;
  if (text.starts_with("\xEF\xBB\xBF")) {
    start = 3;
    report("byte-order-mark", 0, 3,
           "the file begins with a byte order mark; JSON is written without one (RFC 8259, section 8.1)",
           Severity::warning)
        .fixes.push_back({"remove the byte order mark", Fix_safety::safe, {{0, 3, ""}}});
  }
  parse(start);
}

void Tape_builder::parse(std::size_t start) {
  const std::string_view text = document_.text();
  std::vector<char> copy(document_.text_);
  std::vector<Patch> patches;
  document_.nodes_.reserve(text.size() / 8 + 2); // most have a node for nine or ten bytes
  for (;;) {
    document_.nodes_.assign(1, Node{}); // the placeholder
    document_.decoded_.clear();
    Stream stream(copy.data(), copy.size());
    stream.src_ += start;
    Handler handler{stream, text, document_.nodes_, document_.decoded_, document_.arena_};
    rapidjson::Reader reader;
    const rapidjson::ParseResult result = reader.Parse<parse_flags>(stream, handler);
    const std::size_t stopped = result.IsError() ? result.Offset() : stream.Tell();
    // Without an error, the stream has ended: at the end of the text, or at a NUL byte in it.
    document_.whole_ = !result.IsError() && stopped == text.size();
    if (document_.whole_) {
      place_patches(patches);
      if (handler.perhaps_huge) report_huge_numbers(patches);
      if (!document_.decoded_.empty()) report_second_halves(); // texts with escapes
      return;
    }
    if (step_over(result.Code(), stopped, patches)) {
      copy = document_.text_;
      for (const Patch& patch : patches) patch.bytes.copy(copy.data() + patch.at, patch.bytes.size());
      continue;
    }
    const Node_id open = handler.open;
    handler.close_all(static_cast<std::uint32_t>(stopped));
    if (result.Code() != rapidjson::kParseErrorTermination) {
      report_syntax(open, stopped, result.Code());
      return;
    }
    report("nesting-too-deep", stopped - 1, stopped,
           fmt::format("brackets and braces are nested more than {} deep here", most_depth));
    check_syntax(start);
    return;
  }
}

// Of what is JSON and refused all the same. Each that RapidJSON stops at costs another pass over the text.
constexpr std::size_t most_stepped_over = 20;

// Whether a number is beyond ±1e308, by its digits: RapidJSON takes 1.8e309 for a text like any other, and no
// 0e999.
static bool is_beyond_limit(std::string_view number) {
  const std::string_view mantissa = number.substr(0, number.find_first_of("eE"));
  const std::size_t first = mantissa.find_first_of("123456789");
  if (first == std::string_view::npos) return false;
  const auto point = static_cast<std::int64_t>(std::min(mantissa.find('.'), mantissa.size()));
  std::int64_t power = point - static_cast<std::int64_t>(first); // of ten, at the first digit
  if (power > 0) --power;
  if (mantissa.size() < number.size()) {
    std::string_view written = number.substr(mantissa.size() + 1);
    if (written.front() == '+') written.remove_prefix(1);
    int exponent = 0; // one beyond an int is more than a document has digits
    if (std::from_chars(written.data(), written.data() + written.size(), exponent).ec != std::errc())
      return written.front() != '-';
    power += exponent;
  }
  if (power != 308) return power > 308;
  return mantissa[first] != '1' || mantissa.find_first_of("123456789", first + 1) != std::string_view::npos;
}

Finding& Tape_builder::report_huge(std::size_t begin, std::size_t end) {
  return report("number-out-of-limits", begin, end,
                "this number is beyond 1e308, the most that a number can be");
}

Finding& Tape_builder::report_half(std::size_t at) {
  return report("text-forbidden-character", at, at + 6,
                fmt::format("`{}` is half of a surrogate pair; both halves are needed for one character",
                            document_.text().substr(at, 6)));
}

// The first half of a surrogate pair alone and a number beyond all bounds are JSON, but RapidJSON stops
// there. Both are reported, and something harmless of the same length lets it pass. False: nothing can be
// done.
bool Tape_builder::step_over(int code, std::size_t at, std::vector<Patch>& patches) {
  const std::string_view text = document_.text();
  if (code == rapidjson::kParseErrorStringUnicodeSurrogateInvalid) {
    report_half(at);
    patches.push_back({at, "\\u0020"});
    return patches.size() <= most_stepped_over;
  }
  if (code == rapidjson::kParseErrorNumberTooBig) {
    const std::size_t end = std::min(text.find_first_not_of("+-.0123456789Ee", at), text.size());
    const std::string_view number = text.substr(at, end - at);
    if (!is_json_number(number)) return false;
    if (is_beyond_limit(number)) report_huge(at, end);
    patches.push_back({at, number.substr(0, 1) == "-" ? "-1." : "1."});
    patches.back().bytes.resize(number.size(), '0');
    return patches.size() <= most_stepped_over;
  }
  return false;
}

// With the whole tree at hand, what was stepped over gets the place of its value.
void Tape_builder::place_patches(const std::vector<Patch>& patches) {
  const auto& nodes = document_.nodes_;
  for (const Patch& patch : patches) {
    const auto after = std::upper_bound(nodes.begin() + 1, nodes.end(), patch.at,
                                        [](std::size_t at, const Node& node) { return at < node.begin; });
    for (Finding& finding : findings_)
      if (finding.region.begin == patch.at)
        finding.pointer = document_.pointer(static_cast<Node_id>(after - nodes.begin() - 1));
  }
}

// Where an escape stands for the first half of a surrogate pair, or the second.
static bool is_half(std::string_view text, std::size_t at, std::string_view of_third_digit) {
  return text.substr(at, 2) == "\\u" && (text[at + 2] | 0x20) == 'd' &&
         of_third_digit.find(text[at + 3]) != std::string_view::npos;
}

void Tape_builder::report_huge_numbers(const std::vector<Patch>& patches) {
  std::size_t found = 0;
  for (Node_id id = Document::root; id < document_.nodes_.size() && found < most_stepped_over; ++id) {
    const Node node = document_.nodes_[id];
    if (node.type != Node_type::number ||
        !is_beyond_limit(document_.text().substr(node.begin, node.end - node.begin)) ||
        std::any_of(patches.begin(), patches.end(),
                    [&](const Patch& patch) { return patch.at == node.begin; }))
      continue;
    report_huge(node.begin, node.end).pointer = document_.pointer(id);
    ++found;
  }
}

// RapidJSON lets a second half without its first pass; written in UTF-8 it could not be read again.
void Tape_builder::report_second_halves() {
  const std::string_view text = document_.text();
  std::size_t found = 0;
  for (Node_id id = Document::root; id < document_.nodes_.size() && found < most_stepped_over; ++id) {
    const Node node = document_.nodes_[id];
    if (!node.escaped) continue;
    for (std::size_t at = node.begin + 1; at + 1 < node.end;) {
      if (is_half(text, at, "cdefCDEF")) {
        report_half(at).pointer = document_.pointer(id);
        ++found;
        break;
      }
      const bool pair = is_half(text, at, "89abAB") && is_half(text, at + 6, "cdefCDEF");
      at += pair ? 12 : text[at] == '\\' ? 2 : 1;
    }
  }
}

// Whether what is nested too deep is JSON at all. This parser needs no stack, and keeps nothing.
void Tape_builder::check_syntax(std::size_t start) {
  rapidjson::StringStream stream(document_.text_.data());
  stream.src_ += start;
  rapidjson::BaseReaderHandler<> nothing;
  rapidjson::Reader reader;
  const rapidjson::ParseResult result = reader.Parse<rapidjson::kParseIterativeFlag>(stream, nothing);
  const std::size_t stopped = result.IsError() ? result.Offset() : stream.Tell();
  const bool passes = result.Code() == rapidjson::kParseErrorStringUnicodeSurrogateInvalid ||
                      result.Code() == rapidjson::kParseErrorNumberTooBig;
  if (!passes && (result.IsError() || stopped < document_.text().size()))
    report_syntax(0, stopped, result.Code());
}

void Tape_builder::report_syntax(Node_id open, std::size_t offset, int code) {
  Syntax_problem problem =
      explain_syntax(document_, open, offset, stop_of(static_cast<rapidjson::ParseErrorCode>(code)));
  Finding& finding = report("json-syntax", problem.begin, problem.end, std::move(problem.message));
  finding.pointer = document_.pointer(open);
  finding.related = std::move(problem.related);
  finding.fixes = std::move(problem.fixes);
}

}
