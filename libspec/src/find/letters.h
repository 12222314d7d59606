// Letters, digits and spaces of every language, as far as words are told apart by them.
#pragma once

#include <utility>

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

/// Capital letters made small, and two signs of units made the letters that they are: Latin, Greek and
/// Cyrillic ones of the languages that are spoken today, as CaseFolding.txt of Unicode pairs them.
constexpr char32_t small_letter(char32_t c) {
  // Where each capital stands just before its small letter.
  constexpr std::pair<char32_t, char32_t> in_turns[] = {
      {0x100, 0x12F}, {0x132, 0x137}, {0x139, 0x148}, {0x14A, 0x177},   {0x179, 0x17E},  {0x1A0, 0x1A5},
      {0x1AF, 0x1B0}, {0x1CD, 0x1DC}, {0x1DE, 0x1EF}, {0x1F8, 0x21F},   {0x222, 0x233},  {0x460, 0x481},
      {0x48A, 0x4BF}, {0x4C1, 0x4CE}, {0x4D0, 0x52F}, {0x1E00, 0x1E95}, {0x1EA0, 0x1EFF}};
  for (const auto& [first, last] : in_turns)
    if (is_from(c, first, last)) return c % 2 == first % 2 ? c + 1 : c;
  if (is_from(c, U'A', U'Z') || (is_from(c, 0xC0, 0xDE) && c != 0xD7)) return c + 0x20;
  if (c == 0xB5) return 0x3BC; // micro
  if (c == 0x178) return 0xFF;
  if (c == 0x18F) return 0x259; // schwa
  if (c == 0x386) return 0x3AC;
  if (is_from(c, 0x388, 0x38A)) return c + 0x25;
  if (c == 0x38C) return 0x3CC;
  if (c == 0x38E || c == 0x38F) return c + 0x3F;
  if (is_from(c, 0x391, 0x3AB)) return c + 0x20;
  if (c == 0x3C2) return 0x3C3; // the final sigma, which has no capital of its own
  if (is_from(c, 0x400, 0x40F)) return c + 0x50;
  if (is_from(c, 0x410, 0x42F)) return c + 0x20;
  if (c == 0x4C0) return 0x4CF;
  if (c == 0x2126) return 0x3C9; // ohm
  return c;
}

}
