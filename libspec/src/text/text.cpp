#include "ohmlore/text.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cstring>
#include <iterator>
#include <vector>

#include <fmt/format.h>

#include "text/small_letters.h"

namespace ohmlore {

unsigned utf8_length(std::string_view text, std::size_t offset) {
  auto byte = [&](std::size_t i) -> unsigned {
    return offset + i < text.size() ? static_cast<unsigned char>(text[offset + i]) : 0u;
  };
  auto tail = [&](std::size_t i) { return (byte(i) & 0xC0u) == 0x80u; };
  const unsigned lead = byte(0);
  if (offset >= text.size()) return 0;
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead <= 0xDF) return tail(1) ? 2 : 0;
  if (lead >= 0xE0 && lead <= 0xEF) {
    const unsigned second = byte(1);
    if (!tail(1) || !tail(2)) return 0;
    if (lead == 0xE0 && second < 0xA0) return 0; // overlong
    if (lead == 0xED && second > 0x9F) return 0; // surrogate
    return 3;
  }
  if (lead >= 0xF0 && lead <= 0xF4) {
    const unsigned second = byte(1);
    if (!tail(1) || !tail(2) || !tail(3)) return 0;
    if (lead == 0xF0 && second < 0x90) return 0; // overlong
    if (lead == 0xF4 && second > 0x8F) return 0; // above U+10FFFF
    return 4;
  }
  return 0;
}

char32_t next_code_point(std::string_view text, std::size_t& offset) {
  const unsigned length = utf8_length(text, offset);
  if (length == 0) {
    ++offset;
    return 0xFFFD;
  }
  auto byte = [&](std::size_t i) {
    return static_cast<char32_t>(static_cast<unsigned char>(text[offset + i]));
  };
  char32_t code_point = length == 1 ? byte(0) : byte(0) & (0xFFu >> (length + 1));
  for (unsigned i = 1; i < length; ++i) code_point = (code_point << 6) | (byte(i) & 0x3Fu);
  offset += length;
  return code_point;
}

void append_code_point(std::string& text, char32_t c) {
  auto put = [&](char32_t byte) { text.push_back(static_cast<char>(static_cast<unsigned char>(byte))); };
  if (c < 0x80) {
    put(c);
  } else if (c < 0x800) {
    put(0xC0 | (c >> 6));
    put(0x80 | (c & 0x3F));
  } else if (c < 0x10000) {
    put(0xE0 | (c >> 12));
    put(0x80 | ((c >> 6) & 0x3F));
    put(0x80 | (c & 0x3F));
  } else {
    put(0xF0 | (c >> 18));
    put(0x80 | ((c >> 12) & 0x3F));
    put(0x80 | ((c >> 6) & 0x3F));
    put(0x80 | (c & 0x3F));
  }
}

// As many bytes as the text begins with, in steps of 32 and 8.
static std::size_t ascii_prefix(std::string_view text) {
  constexpr std::uint64_t high_bits = 0x8080808080808080u;
  std::size_t i = 0;
  for (std::array<std::uint64_t, 4> some; i + 32 <= text.size(); i += 32) {
    std::memcpy(some.data(), text.data() + i, 32);
    if (((some[0] | some[1] | some[2] | some[3]) & high_bits) != 0) break;
  }
  for (std::uint64_t eight; i + 8 <= text.size(); i += 8) {
    std::memcpy(&eight, text.data() + i, 8);
    if constexpr (std::endian::native == std::endian::big) eight = __builtin_bswap64(eight);
    if (const std::uint64_t high = eight & high_bits; high != 0)
      return i + static_cast<std::size_t>(std::countr_zero(high)) / 8;
  }
  while (i < text.size() && static_cast<unsigned char>(text[i]) < 0x80) ++i;
  return i;
}

std::size_t find_invalid_utf8(std::string_view text, std::size_t from) {
  std::size_t i = from;
  while (i < text.size()) {
    // Many ASCII bytes at a time: nearly all of a document.
    if (const std::size_t ascii = ascii_prefix(text.substr(i)); ascii > 0) {
      i += ascii;
      continue;
    }
    const unsigned length = utf8_length(text, i);
    if (length == 0) return i;
    i += length;
  }
  return std::string_view::npos;
}

std::size_t code_points(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < text.size(); ++count) {
    const std::size_t ascii = ascii_prefix(text.substr(i)); // nearly all
    i += ascii;
    count += ascii;
    if (i == text.size()) break;
    i += std::max(1u, utf8_length(text, i));
  }
  return count;
}

std::size_t plain_prefix(std::string_view text) {
  std::size_t i = 0;
  for (std::uint64_t eight; i + 8 <= text.size(); i += 8) {
    std::memcpy(&eight, text.data() + i, 8);
    const std::uint64_t below = (eight - 0x2020202020202020u) & ~eight; // high bit: a byte below 0x20
    const std::uint64_t above = eight | (eight + 0x0101010101010101u);  // high bit: a byte above 0x7E
    if ((below | above) & 0x8080808080808080u) break;
  }
  while (i < text.size() && text[i] >= 0x20 && text[i] < 0x7F) ++i;
  return i;
}

// In blocks small enough for sums of one byte, of which a processor makes many at once.
static std::uint32_t line_breaks(std::string_view text) {
  constexpr std::size_t block = 128;
  std::uint32_t breaks = 0;
  for (; text.size() >= block; text.remove_prefix(block)) {
    std::uint8_t in_block = 0;
    for (std::size_t i = 0; i < block; ++i)
      in_block = static_cast<std::uint8_t>(in_block + (text[i] == '\n'));
    breaks += in_block;
  }
  return breaks + static_cast<std::uint32_t>(std::count(text.begin(), text.end(), '\n'));
}

Position position_of(std::string_view text, std::size_t offset) {
  offset = std::min(offset, text.size());
  const std::string_view before = text.substr(0, offset);
  const std::size_t start = before.rfind('\n') + 1; // 0 where there is none
  return {line_breaks(before) + 1, static_cast<std::uint32_t>(code_points(before.substr(start))) + 1};
}

std::string_view line_at(std::string_view text, std::size_t offset) {
  offset = std::min(offset, text.size());
  const std::size_t before = offset == 0 ? std::string_view::npos : text.rfind('\n', offset - 1);
  const std::size_t start = before == std::string_view::npos ? 0 : before + 1;
  std::string_view line = text.substr(start, text.find('\n', start) - start);
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

// Characters that show nothing and may stand anywhere: controls, line separators, text direction, and what
// Unicode calls default ignorable (zero-width spaces and joiners, byte order mark, variation selectors,
// tags).
static bool is_unseen(char32_t c) {
  static constexpr char32_t ranges[][2] = {
      {0x0000, 0x001F}, {0x007F, 0x009F},   {0x00AD, 0x00AD},   {0x034F, 0x034F},  {0x061C, 0x061C},
      {0x115F, 0x1160}, {0x17B4, 0x17B5},   {0x180B, 0x180F},   {0x200B, 0x200F},  {0x2028, 0x202E},
      {0x2060, 0x206F}, {0x3164, 0x3164},   {0xFE00, 0xFE0F},   {0xFEFF, 0xFEFF},  {0xFFA0, 0xFFA0},
      {0xFFF0, 0xFFFB}, {0x1BCA0, 0x1BCA3}, {0x1D173, 0x1D17A}, {0xE0000, 0xE0FFF}};
  return std::any_of(std::begin(ranges), std::end(ranges),
                     [c](const char32_t(&range)[2]) { return c >= range[0] && c <= range[1]; });
}

std::string printable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t plain = plain_prefix(text.substr(i));
    out.append(text, i, plain);
    if ((i += plain) == text.size()) break;
    const std::size_t start = i;
    const bool whole = utf8_length(text, i) != 0;
    const char32_t c = next_code_point(text, i);
    if (!whole) {
      fmt::format_to(std::back_inserter(out), "\\x{:02X}", static_cast<unsigned char>(text[start]));
    } else if (is_unseen(c)) {
      fmt::format_to(std::back_inserter(out), "\\u{{{:04X}}}", static_cast<std::uint32_t>(c));
    } else {
      out.append(text.substr(start, i - start));
    }
  }
  return out;
}

std::string printable_json(std::string_view json) {
  std::string out;
  out.reserve(json.size());
  const auto escape = [&](char32_t unit) {
    fmt::format_to(std::back_inserter(out), "\\u{:04X}", static_cast<std::uint32_t>(unit));
  };
  for (std::size_t i = 0; i < json.size();) {
    const std::size_t plain = plain_prefix(json.substr(i)), start = i + plain;
    out.append(json, i, plain);
    if ((i = start) == json.size()) break;
    const char32_t c = next_code_point(json, i);
    if (c < 0x7F || !is_unseen(c)) {
      out.append(json, start, i - start); // a line break among them: between values, where JSON allows it
    } else if (c <= 0xFFFF) {
      escape(c);
    } else { // RFC 8259, section 7
      escape(0xD800 + ((c - 0x10000) >> 10));
      escape(0xDC00 + ((c - 0x10000) & 0x3FF));
    }
  }
  return out;
}

std::string pointer_token(std::string_view key) {
  std::string token;
  for (const char c : key) {
    if (c == '~')
      token += "~0";
    else if (c == '/')
      token += "~1";
    else
      token += c;
  }
  return token;
}

// Optimal string alignment: insertions, deletions, exchanges, swaps of neighbours. Of what is more than
// `most` apart only that it is: a way of so few steps keeps near the diagonal, and most words end it early.
static std::size_t distance(std::string_view a, std::string_view b, std::size_t most) {
  std::vector<std::array<std::size_t, 3>> columns(b.size() + 1); // rows i-2, i-1, i of each column
  for (std::size_t j = 0; j <= b.size(); ++j) columns[j] = {most + 1, j, most + 1};
  for (std::size_t i = 1; i <= a.size(); ++i) {
    const std::size_t first = i > most ? i - most : 0, last = std::min(b.size(), i + most);
    std::size_t least = most + 1;
    for (std::size_t j = first; j <= last; ++j) {
      std::size_t best = i;
      if (j > 0) {
        const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
        const std::size_t beside = j == first ? most + 1 : columns[j - 1][2] + 1;
        const std::size_t over = j == i + most ? most + 1 : columns[j][1] + 1;
        best = std::min({over, beside, columns[j - 1][1] + change});
        if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
          best = std::min(best, columns[j - 2][0] + 1);
      }
      columns[j][2] = best;
      least = std::min(least, best);
    }
    if (least > most) return most + 1;
    for (std::size_t j = first > 0 ? first - 1 : 0; j <= last; ++j)
      columns[j] = {columns[j][1], columns[j][2], 0};
  }
  return columns[b.size()][1];
}

// Which bytes a word has, by their last 6 bits: a slip changes no more than two of them.
static std::uint64_t bytes_of(std::string_view word) {
  std::uint64_t bytes = 0;
  for (const char c : word) bytes |= std::uint64_t{1} << (static_cast<unsigned char>(c) % 64);
  return bytes;
}

std::string_view nearest_word(std::string_view word, std::span<const std::string_view> known) {
  std::string_view best;
  if (word.size() < 2 || word.size() > 64) return best;
  std::size_t least = (word.size() <= 4 ? 1 : 2) + 1;
  const std::uint64_t bytes = bytes_of(word);
  for (const std::string_view candidate : known) {
    const std::size_t longer = std::max(candidate.size(), word.size());
    if (longer - std::min(candidate.size(), word.size()) >= least) continue;
    if (static_cast<std::size_t>(std::popcount(bytes ^ bytes_of(candidate))) > 2 * (least - 1)) continue;
    if (const std::size_t d = distance(word, candidate, least - 1); d < least) {
      least = d;
      best = candidate;
    }
  }
  return best;
}

// By character, as many ids are looked at.
static constexpr auto may_stand_in_id = [] {
  std::array<bool, 256> may{};
  for (std::size_t i = 0; i < may.size(); ++i) {
    const char c = static_cast<char>(i);
    may[i] = is_letter_or_digit(c) || c == '_' || c == '-';
  }
  return may;
}();

bool is_id(std::string_view text) {
  if (text.empty() || text.size() > 64 || !is_letter_or_digit(text[0])) return false;
  return std::all_of(text.begin() + 1, text.end(),
                     [](char c) { return may_stand_in_id[static_cast<unsigned char>(c)]; });
}

bool is_date(std::string_view text) {
  if (text.size() != 7 && text.size() != 10) return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool dash = i == 4 || i == 7;
    if (dash ? text[i] != '-' : (text[i] < '0' || text[i] > '9')) return false;
  }
  const int month = (text[5] - '0') * 10 + (text[6] - '0');
  const int day = text.size() == 10 ? (text[8] - '0') * 10 + (text[9] - '0') : 1;
  return month >= 1 && month <= 12 && day >= 1 && day <= 31;
}

bool is_version(std::string_view text) {
  const auto is_number = [](std::string_view digits) {
    return !digits.empty() && digits.size() <= 4 && (digits == "0" || digits[0] != '0') &&
           digits.find_first_not_of("0123456789") == std::string_view::npos;
  };
  const std::size_t point = text.find('.');
  return point != std::string_view::npos && is_number(text.substr(0, point)) &&
         is_number(text.substr(point + 1));
}

bool is_inner_path(std::string_view text) {
  if (text.empty() || (!is_letter_or_digit(text[0]) && text[0] != '_')) return false;
  for (std::size_t i = 1; i < text.size(); ++i) {
    const char c = text[i];
    if (!is_letter_or_digit(c) && std::string_view("_.-/").find(c) == std::string_view::npos) return false;
    if (text[i - 1] == '/' && (c == '/' || c == '.')) return false;
  }
  return true;
}

}
