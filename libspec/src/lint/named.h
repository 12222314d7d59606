// What a text names, as two people would write it: by words, whatever separates them.
#pragma once

#include <map>
#include <string>

#include "ohmlore/resolve.h"
#include "text/small_letters.h"

namespace ohmlore::rules {

/// " fan live " of "fan, live" and of "fan_live": small letters (ASCII), a space around each word.
inline std::string words_of(Text text) {
  const auto separates = [](char c) {
    return c == ' ' || c == '_' || (',' <= c && c <= '/') || c == ';' || c == ':' || c == '(' || c == ')';
  };
  std::string words;
  words.reserve(text.size() + 2);
  words += ' ';
  for (const char c : text) {
    if (!separates(c))
      words += small_letter(c);
    else if (words.back() != ' ')
      words += ' ';
  }
  if (words.back() != ' ') words += ' ';
  return words;
}

/// The components by the words of their ids; of two with the same words the first.
using Components_by_words = std::map<std::string, const Resolved_component*, std::less<>>;
inline Components_by_words components_by_words(const Resolved& resolved) {
  Components_by_words found;
  for (const Resolved_component& component : resolved.components)
    found.emplace(words_of(component.id), &component);
  return found;
}

}
