// Letters and digits of ASCII: told from others, made small and capital, whatever the locale.
#pragma once

#include <string>
#include <string_view>

namespace ohmlore {

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }
constexpr bool is_letter_or_digit(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || is_digit(c);
}
constexpr char small_letter(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c | 0x20) : c; }

inline std::string small_letters(std::string_view text) {
  std::string out(text);
  for (char& c : out) c = small_letter(c);
  return out;
}

/// As at the beginning of a sentence.
inline std::string with_capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] & ~0x20);
  return text;
}

}
