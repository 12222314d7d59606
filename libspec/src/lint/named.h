// What a text names, as two people would write it: by words, whatever separates them.
#pragma once

#include <string>

#include "ohmlore/value.h"
#include "text/small_letters.h"

namespace ohmlore::rules {

/// " fan live " of "fan, live" and of "fan_live": small letters (ASCII), a space around each word.
inline std::string words_of(Text text) {
  std::string words = " ";
  for (const char c : text) {
    if (std::string_view(" _-,;:/.()").find(c) == std::string_view::npos)
      words += small_letter(c);
    else if (words.back() != ' ')
      words += ' ';
  }
  if (words.back() != ' ') words += ' ';
  return words;
}

}
