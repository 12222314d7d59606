// Letters, digits and spaces of every language, as far as words are told apart by them.
#pragma once

namespace ohmlore {

constexpr bool is_from(char32_t c, char32_t first, char32_t last) { return first <= c && c <= last; }

constexpr bool is_space(char32_t c) {
  return c <= U' ' || c == 0xA0 || is_from(c, 0x2000, 0x200A) || c == 0x202F || c == 0x3000;
}

/// Beyond ASCII: whatever is no sign of Latin-1 and no general punctuation, such as the dashes.
constexpr bool is_letter_or_digit(char32_t c) {
  if (c < 0x80) return is_from(c, U'0', U'9') || is_from(c, U'A', U'Z') || is_from(c, U'a', U'z');
  const bool is_sign = c < 0xC0 && c != 0xAA && c != 0xB5 && c != 0xBA;
  return !is_sign && c != 0xD7 && c != 0xF7 && !is_from(c, 0x2000, 0x206F);
}

/// Which capitals make "SS" of.
constexpr bool is_sharp_s(char32_t c) { return c == 0xDF || c == 0x1E9E; }

/// Capital letters made small: Latin, Greek and Cyrillic ones, as CaseFolding.txt of Unicode pairs them.
constexpr char32_t small_letter(char32_t c) {
  const auto next_of_pair = [c](char32_t capital) { return c % 2 == capital % 2 ? c + 1 : c; };
  if (is_from(c, U'A', U'Z') || (is_from(c, 0xC0, 0xDE) && c != 0xD7)) return c + 0x20;
  if (is_from(c, 0x100, 0x137) && c != 0x130 && c != 0x131) return next_of_pair(0x100);
  if (is_from(c, 0x139, 0x148)) return next_of_pair(0x139);
  if (is_from(c, 0x14A, 0x177)) return next_of_pair(0x14A);
  if (c == 0x178) return 0xFF;
  if (is_from(c, 0x179, 0x17E)) return next_of_pair(0x179);
  if (c == 0x3C2) return 0x3C3; // the final sigma, which has no capital of its own
  if (c == 0x386) return 0x3AC;
  if (is_from(c, 0x388, 0x38A)) return c + 0x25;
  if (c == 0x38C) return 0x3CC;
  if (c == 0x38E || c == 0x38F) return c + 0x3F;
  if (is_from(c, 0x391, 0x3AB)) return c + 0x20;
  if (is_from(c, 0x400, 0x40F)) return c + 0x50;
  if (is_from(c, 0x410, 0x42F)) return c + 0x20;
  return c;
}

}
