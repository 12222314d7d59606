// Percent-encoding undone (RFC 3986, 2.1).
#pragma once

#include <charconv>
#include <cstddef>
#include <optional>
#include <string_view>

namespace ohmlore {

/// The byte that the three characters from `at` on stand for; nothing where they are not % and two
/// hexadecimal digits.
inline std::optional<char> percent_encoded(std::string_view text, std::size_t at) {
  constexpr std::size_t length = 3;
  const std::string_view three = text.substr(at, length);
  if (three.size() != length || three[0] != '%') return std::nullopt;
  unsigned byte = 0;
  const char* end = three.data() + length;
  if (std::from_chars(three.data() + 1, end, byte, 16).ptr != end) return std::nullopt;
  return static_cast<char>(byte);
}

}
