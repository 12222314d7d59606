#include "serve/cursor.h"

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

// What `text` means up to its end, whatever is wrong with it. A text ends with its line.
State state_of(std::string_view text) {
  State state;
  const auto stands = [&] {
    if (!state.open.empty()) state.open.back().value = true;
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '"') {
      const std::size_t begin = i++;
      while (i < text.size() && text[i] != '"' && text[i] != '\n') i += text[i] == '\\' ? 2 : 1;
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

}

std::optional<Cursor> cursor_in(std::string_view text, std::size_t offset) {
  Cursor cursor;
  const State here = state_of(text.substr(0, offset));
  cursor.quoted = here.text.has_value();
  cursor.begin = here.text.value_or(offset);
  if (!cursor.quoted)
    while (cursor.begin > 0 && is_of_word(text[cursor.begin - 1])) --cursor.begin;
  cursor.end = offset;
  while (cursor.end < text.size() && is_of_word(text[cursor.end])) ++cursor.end;
  if (cursor.quoted && cursor.end < text.size() && text[cursor.end] == '"') ++cursor.end;

  const State before = state_of(text.substr(0, cursor.begin));
  if (before.open.empty()) return std::nullopt;
  const Open& around = before.open.back();
  const bool missing = around.value; // a comma, after what stands there
  if (missing && (!cursor.quoted || (around.bracket == '{' && !around.colon))) return std::nullopt;
  cursor.is_key = around.bracket == '{' && (!around.colon || missing);

  const std::size_t next = text.find_first_not_of(" \t\r\n", cursor.end);
  const char follows = next == text.npos ? '\0' : text[next];
  cursor.has_colon = cursor.is_key && follows == ':';
  cursor.needs_comma =
      follows != '\0' && follows != ',' && follows != '}' && follows != ']' && !cursor.has_colon;
  // No key of the format has a space.
  const std::string_view word = !cursor.is_key ? "null" : cursor.has_colon ? "\" \"" : "\" \": null";
  cursor.place = cursor.begin + (missing ? 1 : 0);
  cursor.mended = fmt::format("{}{}{}{}{}", text.substr(0, cursor.begin), missing ? "," : "", word,
                              cursor.needs_comma ? "," : "", text.substr(cursor.end));
  return cursor;
}

}
