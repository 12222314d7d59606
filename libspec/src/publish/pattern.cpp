#include "publish/pattern.h"

#include <algorithm>
#include <charconv>
#include <optional>

#include <fmt/format.h>

#include "ohmlore/text.h"

namespace ohmlore {
namespace {

// What ECMAScript takes for a space, within a set: RE2's own `\s` is five characters of ASCII.
constexpr std::string_view spaces = R"(\s\v\x{FEFF}\p{Z})";

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

// From ECMAScript's syntax to RE2's.
class Translation {
public:
  explicit Translation(std::string_view in) : in_(in) {
    while (at_ < in_.size() && problem.empty()) outside();
  }

  std::string text;
  std::string problem;

private:
  void outside() {
    const std::string_view rest = in_.substr(at_);
    for (const std::string_view look : {"(?=", "(?!", "(?<=", "(?<!"})
      if (rest.starts_with(look))
        return fail(fmt::format(
            "`{}` looks around, which is supported at the beginning only, as `^(?!…)` or `^(?=…)`", look));
    if (rest.starts_with("(?<")) return put(3, "(?P<");
    switch (rest.front()) {
    case '\\': return escape(false);
    case '[': return set();
    case '.': return put(1, R"([^\n\r\x{2028}\x{2029}])");
    default: put(1, rest.substr(0, 1));
    }
  }

  void set() {
    const std::string_view rest = in_.substr(at_);
    if (rest.starts_with("[^]")) return put(3, R"([\x{0}-\x{10FFFF}])");
    if (rest.starts_with("[]")) return put(2, R"([^\x{0}-\x{10FFFF}])");
    put(1, "[");
    while (at_ < in_.size() && in_[at_] != ']' && problem.empty()) {
      const std::size_t named = in_.substr(at_).starts_with("[:") ? in_.find(":]", at_) : std::string::npos;
      if (named != std::string::npos)
        put(named + 2 - at_, in_.substr(at_, named + 2 - at_));
      else if (in_[at_] == '\\')
        escape(true);
      else
        put(1, in_.substr(at_, 1));
    }
    if (at_ < in_.size()) put(1, "]");
  }

  void escape(bool in_set) {
    const std::string_view both = in_.substr(at_, 2);
    if (both.size() < 2) return put(1, both);
    const char c = both.back();
    switch (c) {
    case 's': return put(2, in_set ? std::string(spaces) : fmt::format("[{}]", spaces));
    case 'S': return put(2, in_set ? std::string(both) : fmt::format("[^{}]", spaces));
    case 'b': return put(2, in_set ? R"(\x{8})" : both);
    case '0': return put(2, R"(\x{0})");
    case 'u': return code_point();
    default: break;
    }
    if ((c >= '1' && c <= '9') || c == 'k')
      return fail(fmt::format("`{}` refers back, which is not supported", both));
    if (is_letter(c) && std::string_view("dDwWBfnrtvxpP").find(c) == std::string_view::npos)
      return fail(fmt::format("`{}` is not supported", both));
    const bool needless = c == '_' || static_cast<unsigned char>(c) >= 0x80;
    put(needless ? 1 : 2, needless ? std::string_view() : both);
  }

  // \uXXXX, twice for a character that UTF-16 writes as two halves, or \u{X…}.
  void code_point() {
    if (in_.substr(at_).starts_with("\\u{")) return put(3, "\\x{");
    std::optional<unsigned> value = unit_at(at_);
    if (!value) return fail("after `\\u` stand four hexadecimal digits");
    std::size_t length = 6;
    if (*value >= 0xD800 && *value < 0xE000) {
      const std::optional<unsigned> low = unit_at(at_ + length);
      if (*value >= 0xDC00 || !low || *low < 0xDC00 || *low >= 0xE000)
        return fail(fmt::format("`{}` is half a character", in_.substr(at_, length)));
      value = 0x10000 + ((*value - 0xD800) << 10) + (*low - 0xDC00);
      length *= 2;
    }
    put(length, fmt::format("\\x{{{:X}}}", *value));
  }

  std::optional<unsigned> unit_at(std::size_t at) const {
    if (at + 6 > in_.size() || !in_.substr(at).starts_with("\\u")) return {};
    unsigned value = 0;
    const char* end = in_.data() + at + 6;
    const std::from_chars_result read = std::from_chars(end - 4, end, value, 16);
    return read.ec == std::errc() && read.ptr == end ? std::optional(value) : std::nullopt;
  }

  void put(std::size_t taken, std::string_view written) {
    text += written;
    at_ += taken;
  }
  void fail(std::string_view why) { problem = fmt::format("cannot be used: {}", why); }

  const std::string_view in_;
  std::size_t at_ = 0;
};

std::size_t after_one(std::string_view text, std::size_t at) {
  if (text[at] == '\\') return at + 2;
  if (text[at] != '[') return at + 1;
  for (++at; at < text.size() && text[at] != ']'; ++at)
    if (text[at] == '\\') ++at;
  return at + 1;
}

// Where a character first stands outside of groups and sets, or npos.
std::size_t find_outside(std::string_view text, char wanted, std::size_t from) {
  int depth = 0;
  for (std::size_t at = from; at < text.size(); at = after_one(text, at)) {
    if (depth == 0 && text[at] == wanted) return at;
    if (text[at] == '(') ++depth;
    if (text[at] == ')') --depth;
  }
  return text.npos;
}

void demand(Pattern& pattern, std::string_view text, bool found) {
  if (!pattern.problem.empty()) return;
  const Translation translation(text);
  pattern.problem = translation.problem;
  if (!pattern.problem.empty()) return;
  std::shared_ptr<const Regular_expression> expression(
      make_regular_expression(translation.text.data(), translation.text.size()), free_regular_expression);
  if (const std::string_view problem = problem_of(*expression); !problem.empty())
    pattern.problem = fmt::format("is not a regular expression: {}", problem);
  pattern.demands.push_back({std::move(expression), found});
}

}

Pattern compile_pattern(std::string_view text) {
  Pattern pattern;
  std::string rest(text);
  // "^(?!a)b" is found where "^b" is and "^(?:a)" is not.
  while ((rest.starts_with("^(?!") || rest.starts_with("^(?=")) && find_outside(rest, '|', 0) == rest.npos) {
    const std::size_t end = find_outside(rest, ')', 4);
    if (end == rest.npos) break;
    demand(pattern, fmt::format("^(?:{})", rest.substr(4, end - 4)), rest[3] == '=');
    rest = '^' + rest.substr(end + 1);
  }
  demand(pattern, rest, true);
  return pattern;
}

bool found(const Pattern& pattern, std::string_view text) {
  return pattern.problem.empty() &&
         std::all_of(pattern.demands.begin(), pattern.demands.end(), [&](const Pattern::Demand& demand) {
           return matches(*demand.expression, text.data(), text.size()) == demand.found;
         });
}

}
