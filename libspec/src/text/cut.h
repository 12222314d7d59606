// Texts taken apart.
#pragma once

#include <algorithm>
#include <string_view>

namespace ohmlore {

/// What stands before the next `end`, or all where there is none; it is taken out of the text, with the end.
inline std::string_view cut(std::string_view& text, char end) {
  const std::size_t length = std::min(text.find(end), text.size());
  const std::string_view first = text.substr(0, length);
  text.remove_prefix(std::min(length + 1, text.size()));
  return first;
}

}
