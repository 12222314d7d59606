// Text: positions in source bytes, UTF-8, JSON Pointer, likeness of words.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace ohmlore {

/// Line and column, 1-based. A column counts code points from the line's start; a tab is one. Lines end at
/// LF.
struct Position {
  std::uint32_t line = 1;
  std::uint32_t column = 1;
};

/// Position of a byte offset. Offsets past the end give the position of the end. Bytes that are not UTF-8
/// count one column each.
Position position_of(std::string_view text, std::size_t offset);

/// The line that an offset lies in, without its LF or CR LF.
std::string_view line_at(std::string_view text, std::size_t offset);

/// Length in bytes (1 to 4) of the well-formed UTF-8 sequence at `offset`; 0 where there is none
/// (RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF).
unsigned utf8_length(std::string_view text, std::size_t offset);

/// The code point at `offset`; U+FFFD where the bytes are not UTF-8. Advances `offset` past it.
char32_t next_code_point(std::string_view text, std::size_t& offset);

/// Appends a code point as UTF-8.
void append_code_point(std::string& text, char32_t code_point);

/// First offset at or after `from` that is not well-formed UTF-8, or npos.
std::size_t find_invalid_utf8(std::string_view text, std::size_t from = 0);

/// Number of code points.
std::size_t code_points(std::string_view text);

/// How many characters from U+0020 to U+007E the text begins with: nearly all of most texts.
std::size_t plain_prefix(std::string_view text);

/// Text made safe for a terminal: controls, line separators, bidirectional controls and other characters that
/// are not seen as \u{…}, bytes that are not UTF-8 as \x… Doing it twice changes nothing.
std::string printable(std::string_view text);
/// The same of JSON text, whose values stay the same: \uXXXX for each such character.
std::string printable_json(std::string_view json);

/// A reference token of a JSON Pointer, escaped (RFC 6901: ~ as ~0, / as ~1).
std::string pointer_token(std::string_view key);

/// The known word that `word` most likely stands for: fewest insertions, deletions, exchanges and swaps of
/// neighbours, at most 2 (1 for words of up to 4 letters); empty where none is near, as for one letter.
std::string_view nearest_word(std::string_view word, std::span<const std::string_view> known);

/// [A-Za-z0-9][A-Za-z0-9_-]{0,63}
bool is_id(std::string_view text);
/// YYYY-MM or YYYY-MM-DD, month 01 to 12, day 01 to 31.
bool is_date(std::string_view text);
/// MAJOR.MINOR: two numbers of up to four digits, without leading zeros.
bool is_version(std::string_view text);
/// A relative path that stays below where it starts: ASCII letters, digits, `_`, `.`, `-` and `/`; it begins
/// with a letter, digit or `_`, and after a `/` comes neither `/` nor `.`.
bool is_inner_path(std::string_view text);

}
