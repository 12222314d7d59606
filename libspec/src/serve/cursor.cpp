#include "serve/cursor.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

namespace ohmlore::serve {
namespace {

// A container that is not closed yet, and what stands before the place in it, since its last comma.
struct Open {
  char bracket = '{';
  bool colon = false; // of an object
  bool value = false; // something stands after the colon, or without one; it may be a key
};
struct State {
  std::vector<Open> open;
  std::optional<std::size_t> text; // where the text begins that the place is in
};

bool ends_line(char c) { return c == '\n' || c == '\r'; }

// Of a text whose quotation mark stands at `begin`: the one that closes it, or where its line ends without.
std::size_t end_of_text(std::string_view text, std::size_t begin) {
  std::size_t i = begin + 1;
  while (i < text.size() && text[i] != '"' && !ends_line(text[i]))
    i += text[i] == '\\' && i + 1 < text.size() && !ends_line(text[i + 1]) ? 2 : 1;
  return i;
}

// What `text` means up to its end, whatever is wrong with it. A text ends with its line.
State state_of(std::string_view text) {
  State state;
  const auto stands = [&] {
    if (!state.open.empty()) state.open.back().value = true;
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '"') {
      const std::size_t begin = i;
      i = end_of_text(text, begin);
      if (i >= text.size()) {
        state.text = begin;
        return state;
      }
      stands();
    } else if (c == '{' || c == '[') {
      stands();
      state.open.push_back({c});
    } else if (c == '}' || c == ']') {
      if (!state.open.empty()) state.open.pop_back();
    } else if (c == ':' || c == ',') {
      if (!state.open.empty()) state.open.back() = {state.open.back().bracket, c == ':', false};
    } else if (c != ' ' && c != '\t' && c != '\r' && c != '\n') {
      stands();
    }
  }
  return state;
}

// Of ids, words, contacts and keys.
bool is_of_word(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-' ||
         c == '.' || c == '$';
}

// Behind the mark that closes the text at `begin`, where it is one: what follows may follow a key or a value.
// Else it opens another text, and the mark at the cursor is missing.
std::optional<std::size_t> end_of_whole_text(std::string_view text, std::size_t begin) {
  const std::size_t mark = end_of_text(text, begin);
  if (mark >= text.size() || text[mark] != '"') return std::nullopt;
  const std::size_t next = text.find_first_not_of(" \t", mark + 1);
  const bool follows = next == text.npos || std::string_view(":,}]\r\n").find(text[next]) != text.npos;
  return follows ? std::optional(mark + 1) : std::nullopt;
}

std::size_t end_of_word(std::string_view text, std::size_t offset, bool quoted) {
  while (offset < text.size() && is_of_word(text[offset])) ++offset;
  return quoted && offset < text.size() && text[offset] == '"' ? offset + 1 : offset;
}

std::size_t after_blanks(std::string_view text, std::size_t offset) {
  return std::min(text.find_first_not_of(" \t\r\n", offset), text.size());
}

bool is_key_with_colon(std::string_view text, std::size_t offset) {
  if (offset >= text.size() || text[offset] != '"') return false;
  const std::size_t next = after_blanks(text, end_of_text(text, offset) + 1);
  return next < text.size() && text[next] == ':';
}

}

std::optional<Cursor> cursor_in(std::string_view text, std::size_t offset) {
  Cursor cursor;
  const State here = state_of(text.substr(0, offset));
  cursor.quoted = here.text.has_value();
  cursor.begin = here.text.value_or(offset);
  if (!cursor.quoted)
    while (cursor.begin > 0 && is_of_word(text[cursor.begin - 1])) --cursor.begin;
  const auto whole = cursor.quoted ? end_of_whole_text(text, cursor.begin) : std::nullopt;
  cursor.end = whole ? *whole : end_of_word(text, offset, cursor.quoted);

  const State before = state_of(text.substr(0, cursor.begin));
  if (before.open.empty()) return std::nullopt;
  const Open& around = before.open.back();
  const bool missing = around.value; // a comma, after what stands there
  if (missing && (!cursor.quoted || (around.bracket == '{' && !around.colon))) return std::nullopt;
  cursor.is_key = around.bracket == '{' && (!around.colon || missing);

  const std::size_t next = after_blanks(text, cursor.end);
  const char follows = next < text.size() ? text[next] : '\0';
  cursor.has_colon = cursor.is_key && follows == ':';
  cursor.needs_comma =
      follows != '\0' && follows != ',' && follows != '}' && follows != ']' && !cursor.has_colon;
  const bool has_value = cursor.needs_comma && !cursor.is_key && around.bracket == '{';
  if (has_value && !is_key_with_colon(text, next)) return std::nullopt; // two values would stand there

  // No key of the format has a space.
  const std::string_view word = !cursor.is_key ? "null" : cursor.has_colon ? "\" \"" : "\" \": null";
  cursor.place = cursor.begin + (missing ? 1 : 0);
  cursor.mended = fmt::format("{}{}{}{}{}", text.substr(0, cursor.begin), missing ? "," : "", word,
                              cursor.needs_comma ? "," : "", text.substr(cursor.end));
  return cursor;
}

}
