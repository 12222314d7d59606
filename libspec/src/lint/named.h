// What a text names, as two people would write it: by words, whatever separates them.
#pragma once

#include <string>

#include "ohmlore/value.h"
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

}
