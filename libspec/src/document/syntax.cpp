#include "document/syntax.h"

#include <algorithm>

#include <fmt/format.h>

#include "text/small_letters.h"

namespace ohmlore {
namespace {

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
// What people write in one go: words, numbers, units, whatever is not ASCII.
bool is_token(char c) {
  return is_digit(c) || is_letter(c) || static_cast<unsigned char>(c) >= 0x80 ||
         std::string_view("+-._%").find(c) != std::string_view::npos;
}

bool is_literal(std::string_view token) { return token == "true" || token == "false" || token == "null"; }

// A character that looks like a quotation mark or like a space, and what it is called.
std::string_view typographic_mark(char32_t c) {
  switch (c) {
  case 0x201C: return "“";
  case 0x201D: return "”";
  case 0x201E: return "„";
  case 0x201F: return "‟";
  case 0x2018: return "‘";
  case 0x2019: return "’";
  case 0x00AB: return "«";
  case 0x00BB: return "»";
  default: return "";
  }
}
std::string_view odd_space(char32_t c) {
  switch (c) {
  case 0x00A0: return "a no-break space";
  case 0x202F: return "a narrow no-break space";
  case 0x2009: return "a thin space";
  case 0x3000: return "an ideographic space";
  case 0x200B: return "a zero-width space";
  case 0x2060: return "a word joiner";
  case 0xFEFF: return "a byte order mark";
  default: return "";
  }
}

class Explainer {
public:
  Explainer(const Document& document, Node_id open, std::size_t offset, Syntax_stop stop)
      : document_(document), text_(document.text()), open_(open), offset_(offset), stop_(stop) {
    while (before_ > 0 && is_space(text_[before_ - 1])) --before_;
  }

  Syntax_problem explain() {
    const std::size_t mark = text_.starts_with("\xEF\xBB\xBF") ? 3 : 0;
    if (text_.find_first_not_of(" \t\r\n", mark) == std::string_view::npos)
      return {0, 0, "the file is empty; a document is one JSON object", {}, {}};
    if (stop_ == Syntax_stop::in_text) return in_text();
    if (offset_ >= text_.size()) return at_end();
    if (text_[offset_] == '\0')
      return here(1, "a NUL byte stands here; remove it, or save the file as UTF-8 if it is in UTF-16");
    if (utf8_length(text_, offset_) == 0)
      return here(1, "no JSON value begins with this byte; outside of texts JSON has ASCII characters alone");
    std::size_t next = offset_;
    const char32_t c = next_code_point(text_, next);
    if (const std::string_view space = odd_space(c); !space.empty())
      return here(next - offset_, fmt::format("{} (U+{:04X}) stands here; write a plain space", space,
                                              static_cast<std::uint32_t>(c)));
    if (const std::string_view mark = typographic_mark(c); !mark.empty())
      return here(next - offset_,
                  fmt::format("a text stands in straight quotation marks \"…\", not in `{}`", mark));
    if (c < 0x20 && !is_space(text_[offset_]))
      return here(1, fmt::format("the control character U+{:04X} stands here; remove it",
                                 static_cast<std::uint32_t>(c)));
    if (c == '\'' || c == '`')
      return here(1, fmt::format("a text stands in double quotation marks \"…\", not in {}",
                                 c == '`' ? "backticks" : "single ones"));
    const std::string_view rest = text_.substr(offset_);
    if (rest.starts_with("//") || rest.starts_with("/*") || c == '#')
      return here(c == '#' ? 1 : 2,
                  "JSON has no comments; put the words into a `note`, or into a key that begins with x_");
    if (const std::size_t begin = token_begin(); begin < token_end(begin))
      return at_token(begin, token_end(begin));
    return at_mark(text_[offset_]);
  }

private:
  Syntax_problem here(std::size_t length, std::string message) const {
    return {offset_, offset_ + length, std::move(message), {}, {}};
  }
  // At the end of what stands before: where something is missing.
  Syntax_problem missing(std::string_view what, std::string message) const {
    Syntax_problem problem{before_, before_, std::move(message), {}, {}};
    problem.fixes.push_back(
        {fmt::format("insert `{}`", what),
         Fix_safety::unsafe,
         {{static_cast<std::uint32_t>(before_), static_cast<std::uint32_t>(before_), std::string(what)}}});
    return problem;
  }
  char previous() const { return before_ > 0 ? text_[before_ - 1] : '\0'; }
  bool in_container() const { return stop_ == Syntax_stop::in_object || stop_ == Syntax_stop::in_array; }
  bool open_is(Node_type type) const { return open_ != 0 && document_.node(open_).type == type; }
  char opening() const { return open_is(Node_type::object) ? '{' : '['; }
  char closing() const { return open_is(Node_type::object) ? '}' : ']'; }
  std::uint32_t line_of_opening() const { return position_of(text_, document_.node(open_).begin).line; }
  Related opened_here() const {
    const std::uint32_t begin = document_.node(open_).begin;
    return {document_.name(), document_.region(begin, begin + 1), "opened here"};
  }

  std::size_t token_begin() const {
    std::size_t begin = offset_;
    // A broken literal or number began before the place where the parser gave up.
    if (is_token(text_[offset_]) || stop_ == Syntax_stop::at_value || stop_ == Syntax_stop::in_number)
      while (begin > 0 && is_token(text_[begin - 1])) --begin;
    return begin;
  }
  std::size_t token_end(std::size_t begin) const {
    std::size_t end = std::max(begin, offset_);
    while (end < text_.size() && is_token(text_[end])) ++end;
    return end;
  }

  Syntax_problem in_text() const {
    const bool ends = offset_ >= text_.size() || text_.substr(offset_) == "\\";
    const std::size_t start = text_start();
    if (ends)
      return {start,
              text_.size(),
              "the file ends inside this text; its closing quotation mark is missing",
              {},
              {}};
    const char c = text_[offset_];
    if (c == '\0') return {start, offset_, "this text is cut by a NUL byte; remove the byte", {}, {}};
    if (c == '\\') return bad_escape();
    if (c == '\n' || c == '\r') return open_text(start);
    if (c == '\t') return here(1, "a tab stands inside a text; write a space");
    return here(1, fmt::format("the control character U+{:04X} stands inside a text; remove it",
                               static_cast<unsigned>(static_cast<unsigned char>(c))));
  }

  Syntax_problem bad_escape() const {
    if (text_.substr(offset_).starts_with("\\u"))
      return here(2, "`\\u` needs four hexadecimal digits, for example \\u00b0");
    std::size_t next = offset_ + 1;
    next_code_point(text_, next);
    return here(next - offset_,
                fmt::format("`{}` is not an escape of JSON; a backslash in a text is written \\\\",
                            printable(text_.substr(offset_, next - offset_))));
  }

  Syntax_problem open_text(std::size_t start) const {
    Syntax_problem problem{start,
                           offset_,
                           "this text is not closed on its line; a closing quotation mark is missing, or a "
                           "line break stands inside the text",
                           {},
                           {}};
    for (std::size_t i = start + 1; i < offset_;) {
      const std::size_t at = i;
      const char32_t c = next_code_point(text_, i);
      const std::string_view mark = typographic_mark(c);
      if (mark.empty() || c == 0x2018 || c == 0x2019) continue; // an apostrophe closes nothing
      problem.message =
          fmt::format("this text is not closed: `{}` is no closing quotation mark; write \"", mark);
      problem.related = {{document_.name(),
                          document_.region(static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(i)),
                          "here"}};
    }
    return problem;
  }

  // The quotation mark that opened the text around offset_: the last one that is not escaped.
  std::size_t text_start() const {
    std::size_t at = std::min(offset_, text_.size());
    while (at > 0) {
      --at;
      if (text_[at] != '"') continue;
      std::size_t slashes = 0;
      while (slashes < at && text_[at - 1 - slashes] == '\\') ++slashes;
      if (slashes % 2 == 0) break;
    }
    return at;
  }

  Syntax_problem at_end() const {
    Syntax_problem problem{before_, before_, "the file ends before the document does", {}, {}};
    if (open_ == 0) return problem;
    int count = 0;
    for (Node_id node = open_; node != 0; node = document_.node(node).parent) ++count;
    problem.message =
        count == 1 ? fmt::format("the file ends, but the `{}` of line {} is not closed; a `{}` is missing",
                                 opening(), line_of_opening(), closing())
                   : fmt::format("the file ends while {} brackets are open; the innermost is the `{}` of "
                                 "line {}, which a `{}` closes",
                                 count, opening(), line_of_opening(), closing());
    problem.related.push_back(opened_here());
    if (const Node_id inner = closed_too_late(); inner != 0) {
      const Node& node = document_.node(inner);
      problem.message += fmt::format(
          "; by the indentation, the `{}` of line {} was to be closed before line {}", text_[node.begin],
          position_of(text_, node.begin).line, position_of(text_, node.end - 1).line);
      problem.related.push_back(
          {document_.name(), document_.region(node.begin, node.begin + 1), "perhaps to be closed"});
    }
    return problem;
  }

  // How far in the first character of a line stands that is no space.
  std::size_t indentation_of_line(std::size_t offset) const {
    const std::size_t begin = offset == 0 ? 0 : text_.rfind('\n', offset - 1) + 1; // npos + 1 is 0
    return text_.find_first_not_of(" \t", begin) - begin;
  }
  // How far in a bracket stands that begins its line, else npos.
  std::size_t indentation_of(std::size_t bracket) const {
    std::size_t begin = bracket;
    while (begin > 0 && (text_[begin - 1] == ' ' || text_[begin - 1] == '\t')) --begin;
    return begin == 0 || text_[begin - 1] == '\n' ? bracket - begin : std::string_view::npos;
  }

  // The first container to be closed by a bracket that begins its line further out than the line begins that
  // opens the container: that bracket was meant for another. Each container around it takes the next one's
  // then; where there are more, the indentation says nothing. 0: none.
  Node_id closed_too_late() const {
    constexpr int most = 8;
    int count = 0;
    Node_id first = 0;
    for (Node_id id = Document::root; id < document_.nodes().size(); ++id) {
      const Node& node = document_.node(id);
      if ((node.type != Node_type::object && node.type != Node_type::array) || node.end <= node.begin + 1)
        continue;
      const std::size_t bracket = node.end - 1;
      const std::size_t in =
          text_[bracket] == '}' || text_[bracket] == ']' ? indentation_of(bracket) : text_.npos;
      if (in == text_.npos || in >= indentation_of_line(node.begin)) continue;
      if (++count > most) return 0;
      if (first == 0 || node.end < document_.node(first).end) first = id;
    }
    return first;
  }

  char mark_after(std::size_t end) const {
    while (end < text_.size() && is_space(text_[end])) ++end;
    return end < text_.size() ? text_[end] : '\0';
  }

  Syntax_problem at_token(std::size_t begin, std::size_t end) const {
    const std::string_view token = text_.substr(begin, end - begin);
    const std::string shown = printable(token.substr(0, 40));
    auto whole = [&](std::string message) { return Syntax_problem{begin, end, std::move(message), {}, {}}; };
    const bool value = is_json_number(token) || is_literal(token);
    if (stop_ == Syntax_stop::at_key && is_digit(token[0]) && begin >= 2 && text_[begin - 1] == ',' &&
        is_digit(text_[begin - 2]))
      return {begin - 2, end, "a decimal comma stands in this number; write a point", {}, {}};
    if (stop_ == Syntax_stop::at_key)
      return whole(fmt::format("the key `{0}` needs double quotation marks: \"{0}\"", shown));
    if (stop_ == Syntax_stop::at_colon)
      return missing(":", "a colon is missing between this key and its value");
    // `"3/4" inlet"`: not where a comma is missing before a number, or before a key or item of the next line.
    const bool goes_on = begin == offset_ && !value && mark_after(end) != ':' &&
                         text_.substr(before_, offset_ - before_).find('\n') == std::string_view::npos;
    if (in_container() && previous() == '"' && (begin == before_ || goes_on))
      return whole(fmt::format("the text ended at the quotation mark before `{}`; a quotation mark inside a "
                               "text is written \\\"",
                               shown));
    if (in_container() && begin == offset_) {
      // "10 kΩ" without quotation marks: the parser took the number, and stumbled over the unit.
      const std::size_t number = number_before();
      if (!value && number < before_ && is_digit(token[0]))
        return {number,
                end,
                fmt::format("no space may stand inside a number; write {}{}",
                            printable(text_.substr(number, before_ - number)), shown),
                {},
                {}};
      if (!value && number < before_) return unquoted(number, "is a value with a unit");
      return missing(",", fmt::format("a comma is missing here, before `{}`", shown));
    }
    if (value) return after_root();

    const std::string word = small_letters(token);
    const std::string_view unsigned_word =
        std::string_view(word).substr(word.starts_with('-') || word.starts_with('+') ? 1 : 0);
    for (const std::string_view none : {"nan", "inf", "infinity", "none", "nil", "null", "undefined"})
      if (unsigned_word == none)
        return whole(
            fmt::format("`{}` is not a JSON value; leave the member out where there is no value", shown));
    for (const std::string_view right : {"true", "false"})
      if (word == right) return whole(fmt::format("write `{}` instead of `{}`", right, shown));
    if (is_digit(unsigned_word[0]) || (unsigned_word.size() > 1 && unsigned_word[0] == '.') ||
        unsigned_word.size() < word.size())
      if (std::string problem = number_problem(token, shown); !problem.empty())
        return whole(std::move(problem));
    if (stop_ == Syntax_stop::after_root) return after_root();
    return unquoted(begin, "is not a JSON value");
  }

  Syntax_problem unquoted(std::size_t begin, std::string_view what) const {
    const std::size_t end = phrase_end(begin);
    return {begin,
            end,
            fmt::format("`{0}` {1}; write it as text, in double quotation marks: \"{0}\"",
                        printable(text_.substr(begin, std::min<std::size_t>(end - begin, 60))), what),
            {},
            {}};
  }

  // What was written without quotation marks, to the end of its last word: "-20 °C to 110 °C".
  std::size_t phrase_end(std::size_t begin) const {
    std::size_t end = std::min(text_.find_first_of(",]}{[:\"/\n\r", begin), text_.size());
    while (end > begin && is_space(text_[end - 1])) --end;
    return end;
  }

  // Where the number begins that ends at before_; before_ where none does.
  std::size_t number_before() const {
    std::size_t begin = before_;
    while (begin > 0 && is_token(text_[begin - 1])) --begin;
    return is_json_number(text_.substr(begin, before_ - begin)) ? begin : before_;
  }

  static std::string number_problem(std::string_view token, const std::string& shown) {
    const std::string_view sign = token[0] == '-' || token[0] == '+' ? token.substr(0, 1) : "";
    const std::string_view rest = token.substr(sign.size());
    if (sign == "+" && is_json_number(rest))
      return fmt::format("a number has no plus sign before it; write {}", rest);
    const std::size_t zeros = std::min(rest.find_first_not_of('0'), rest.size());
    if (zeros > 0) {
      std::string plain(rest.substr(zeros));
      if (plain.empty() || !is_digit(plain[0])) plain.insert(0, 1, '0');
      if (sign == "-") plain.insert(0, 1, '-');
      if (is_json_number(plain)) return fmt::format("`{}` has a leading zero; write {}", shown, plain);
    }
    if (rest.starts_with('.') && is_json_number(fmt::format("0{}", rest)))
      return fmt::format("a digit must stand before the decimal point; write {}0{}", sign == "-" ? "-" : "",
                         rest);
    if (rest.starts_with("0x") || rest.starts_with("0X"))
      return fmt::format("`{}` is a hexadecimal number; JSON has only decimal ones", shown);
    if (rest.find_first_not_of("0123456789.eE+-") == std::string_view::npos) {
      const std::size_t point = rest.find('.');
      if (point != std::string_view::npos && (point + 1 == rest.size() || !is_digit(rest[point + 1])))
        return fmt::format("`{}` needs a digit behind its decimal point", shown);
      if (const char last = rest.empty() ? '\0' : rest.back();
          last == 'e' || last == 'E' || last == '+' || last == '-')
        return fmt::format("`{}` breaks off; digits must follow", shown);
      return fmt::format("`{}` is not a number of JSON: digits, at most one point and one exponent", shown);
    }
    return "";
  }

  Syntax_problem after_root() const {
    return here(std::max(1u, utf8_length(text_, offset_)),
                "something follows the end of the document; one file holds one JSON object");
  }

  Syntax_problem at_mark(char c) const {
    const bool closes = c == '}' || c == ']';
    if (stop_ == Syntax_stop::after_root)
      return closes
                 ? here(1, fmt::format("this `{}` closes nothing; all that was opened is closed already", c))
                 : after_root();
    if (closes && open_ != 0 && c != closing()) {
      Syntax_problem problem = here(
          1, fmt::format("`{}` stands here, but the `{}` of line {} is still open; a `{}` is missing before",
                         c, opening(), line_of_opening(), closing()));
      problem.related.push_back(opened_here());
      return problem;
    }
    if (closes && previous() == ',') {
      const auto comma = static_cast<std::uint32_t>(before_ - 1);
      return {before_ - 1,
              before_,
              fmt::format("no comma may stand before `{}`; remove it", c),
              {},
              {{"remove the comma", Fix_safety::safe, {{comma, comma + 1, ""}}}}};
    }
    switch (stop_) {
    case Syntax_stop::at_colon:
      if (c == '=') return here(1, "a colon stands between key and value, not `=`");
      if (c == '"' || c == '{' || c == '[')
        return missing(":", "a colon is missing between this key and its value");
      return {before_, before_, "this key has no value; a colon and a value must follow", {}, {}};
    case Syntax_stop::at_key:
      if (c == ',') return here(1, "there is a comma too many here; remove it");
      if (c == ':') return here(1, "a key in double quotation marks must stand before the colon");
      if ((c == '{' || c == '[') && previous() == ',' && open_ != 0) {
        Syntax_problem problem = here(
            1, fmt::format(
                   "a key must stand here, not `{}`; perhaps the `{{` of line {} was to be closed before", c,
                   line_of_opening()));
        problem.related.push_back(opened_here());
        return problem;
      }
      return here(1, fmt::format("a key in double quotation marks must stand here, not `{}`", c));
    case Syntax_stop::in_object:
    case Syntax_stop::in_array:
      if (c == '"' || c == '{' || c == '[')
        return missing(",", fmt::format("a comma is missing here, before the next {}",
                                        stop_ == Syntax_stop::in_array ? "item" : "key"));
      if (c == ':')
        return here(1, stop_ == Syntax_stop::in_array
                           ? "a colon stands in a list; members with a key stand in braces { }"
                           : "a colon stands after a value; a comma or a key is missing before it");
      return here(1, fmt::format("a comma or `{}` must stand here, not `{}`",
                                 stop_ == Syntax_stop::in_array ? ']' : '}', c));
    default: break;
    }
    if (c == ',')
      return here(1, previous() == ',' ? "there is a comma too many here; remove it"
                                       : "a value is missing before this comma");
    if (c == ':') return here(1, "a value must stand here, not a colon");
    if (closes) return {before_, before_, fmt::format("a value is missing before `{}`", c), {}, {}};
    if (c == '<' && before_ == 0 && !in_container())
      return here(
          1, "this is XML or HTML, and no JSON; ohmlore convert --from xml --to json reads documents in XML");
    return here(1, fmt::format("`{}` begins no JSON value; a text needs double quotation marks", c));
  }

  const Document& document_;
  std::string_view text_;
  Node_id open_;
  std::size_t offset_;
  Syntax_stop stop_;
  std::size_t before_ = std::min(offset_, text_.size()); // end of what stands before the place
};

}

bool is_json_number(std::string_view token) {
  auto digits = [&] {
    const std::size_t n = std::min(token.find_first_not_of("0123456789"), token.size());
    token.remove_prefix(n);
    return n;
  };
  if (token.starts_with('-')) token.remove_prefix(1);
  if (token.starts_with('0'))
    token.remove_prefix(1);
  else if (digits() == 0)
    return false;
  if (token.starts_with('.')) {
    token.remove_prefix(1);
    if (digits() == 0) return false;
  }
  if (token.starts_with('e') || token.starts_with('E')) {
    token.remove_prefix(1);
    if (token.starts_with('+') || token.starts_with('-')) token.remove_prefix(1);
    if (digits() == 0) return false;
  }
  return token.empty();
}

Syntax_problem explain_syntax(const Document& document, Node_id open, std::size_t offset, Syntax_stop stop) {
  return Explainer(document, open, offset, stop).explain();
}

}
