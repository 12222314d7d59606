#include "serve/positions.h"

#include <algorithm>
#include <iterator>

#include "ohmlore/text.h"

namespace ohmlore::serve {

Lines_of_text::Lines_of_text(std::string_view text) : text_(text), starts_{0} {
  // Editors send thousands of changes at once, each with places in what the one before it made.
  for (std::size_t lf = text.find('\n'), cr = text.find('\r'), end; (end = std::min(lf, cr)) != text.npos;) {
    (end == lf ? lf : cr) = text.find(text[end], end + 1);
    if (text[end] == '\n' || lf != end + 1) starts_.push_back(static_cast<std::uint32_t>(end + 1));
  }
  for (std::size_t line = 0; line < starts_.size(); ++line) set_marks(line);
}

std::size_t Lines_of_text::begin_after(std::size_t line) const {
  return line + 1 < starts_.size() ? starts_[line + 1] : text_.size();
}

std::size_t Lines_of_text::end_of(std::size_t line) const {
  std::size_t end = begin_after(line);
  while (end > starts_[line] && (text_[end - 1] == '\n' || text_[end - 1] == '\r')) --end;
  return end;
}

// Code units of the character at `offset`, which is moved behind it.
static std::uint32_t units(std::string_view text, std::size_t& offset, Encoding encoding) {
  const std::size_t begin = offset;
  if (static_cast<unsigned char>(text[begin]) < 0x80) return ++offset, 1;
  const char32_t c = next_code_point(text, offset);
  if (encoding == Encoding::utf8) return static_cast<std::uint32_t>(offset - begin);
  return c > 0xFFFF ? 2 : 1;
}

void Lines_of_text::set_marks(std::size_t line) {
  constexpr std::size_t apart = 1024;
  std::size_t at = starts_[line];
  if (begin_after(line) - at <= apart) return;
  const std::size_t end = end_of(line);
  std::uint32_t utf16 = 0;
  for (std::size_t next = at + apart; next < end; next += apart) {
    while (at < next) utf16 += units(text_, at, Encoding::utf16);
    marks_.push_back({static_cast<std::uint32_t>(at), utf16});
  }
}

std::uint32_t Lines_of_text::character_of(const Mark& mark, std::size_t line, Encoding encoding) const {
  return encoding == Encoding::utf8 ? mark.offset - starts_[line] : mark.utf16;
}

Place Lines_of_text::place_of(std::size_t offset, Encoding encoding) const {
  offset = std::min(offset, text_.size());
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
  const auto line = static_cast<std::size_t>(after - starts_.begin()) - 1;
  Mark from{starts_[line], 0};
  const auto mark = std::upper_bound(marks_.begin(), marks_.end(), offset, is_before);
  if (mark != marks_.begin() && std::prev(mark)->offset > from.offset) from = *std::prev(mark);
  Place place{static_cast<std::uint32_t>(line), character_of(from, line, encoding)};
  for (std::size_t at = from.offset; at < offset;) {
    const std::uint32_t size = units(text_, at, encoding);
    if (at <= offset) place.character += size;
  }
  return place;
}

std::size_t Lines_of_text::offset_of(Place place, Encoding encoding) const {
  if (place.line >= starts_.size()) return text_.size();
  const std::size_t end = end_of(place.line);
  const auto first = std::upper_bound(marks_.begin(), marks_.end(), starts_[place.line], is_before);
  const auto mark = std::upper_bound(first, std::upper_bound(first, marks_.end(), end, is_before),
                                     place.character, [&](std::uint32_t character, const Mark& m) {
                                       return character < character_of(m, place.line, encoding);
                                     });
  const Mark from = mark == first ? Mark{starts_[place.line], 0} : *std::prev(mark);
  std::size_t at = from.offset;
  for (std::uint32_t left = place.character - character_of(from, place.line, encoding); at < end;) {
    std::size_t next = at;
    const std::uint32_t size = units(text_, next, encoding);
    if (size > left) break;
    left -= size;
    at = next;
  }
  return at;
}

}
