// Capital letters of ASCII made small, whatever the locale.
#pragma once

#include <string>
#include <string_view>

namespace ohmlore {

constexpr char small_letter(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c | 0x20) : c; }

inline std::string small_letters(std::string_view text) {
  std::string out(text);
  for (char& c : out) c = small_letter(c);
  return out;
}

}
