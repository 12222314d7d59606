// Texts taken apart.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/text.h"

namespace ohmlore {

/// What stands before the next `end`, or all where there is none; it is taken out of the text, with the end.
inline std::string_view cut(std::string_view& text, char end) {
  const std::size_t length = std::min(text.find(end), text.size());
  const std::string_view first = text.substr(0, length);
  text.remove_prefix(std::min(length + 1, text.size()));
  return first;
}

/// Without the blanks at its ends.
inline std::string_view trimmed(std::string_view text, std::string_view blanks = " \t") {
  text.remove_prefix(std::min(text.find_first_not_of(blanks), text.size()));
  return text.substr(0, text.find_last_not_of(blanks) + 1); // npos + 1 is 0
}

/// Where the character begins that a byte belongs to.
inline std::size_t begin_of_character(std::string_view text, std::size_t byte) {
  while (byte > 0 && (text[byte] & 0xC0) == 0x80) --byte;
  return byte;
}

/// The front of a text, safe for a terminal: at most so many bytes, no character of them cut, and "…" where
/// there is more.
inline std::string shortened(std::string_view text, std::size_t longest) {
  if (text.size() <= longest) return printable(text);
  return printable(text.substr(0, begin_of_character(text, longest))) + "…";
}

/// A text as several of at most so many bytes, cut between words where it can be, and through no character.
inline std::vector<std::string> in_pieces(std::string_view text, std::size_t longest) {
  std::vector<std::string> pieces;
  while (text.size() > longest) {
    std::size_t end = text.rfind(' ', longest);
    if (end == 0 || end == std::string_view::npos)
      end = std::max<std::size_t>(begin_of_character(text, longest), 1); // of what is no UTF-8, too
    pieces.emplace_back(text.substr(0, end));
    text = trimmed(text.substr(end));
  }
  pieces.emplace_back(text);
  return pieces;
}

}
