#include "serve/positions.h"

#include <algorithm>

#include "ohmlore/text.h"

namespace ohmlore::serve {

Lines_of_text::Lines_of_text(std::string_view text) : text_(text), starts_{0} {
  for (std::size_t i = 0; i < text.size(); ++i)
    if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.size() || text[i + 1] != '\n')))
      starts_.push_back(static_cast<std::uint32_t>(i + 1));
}

std::size_t Lines_of_text::end_of(std::size_t line) const {
  std::size_t end = line + 1 < starts_.size() ? starts_[line + 1] : text_.size();
  while (end > starts_[line] && (text_[end - 1] == '\n' || text_[end - 1] == '\r')) --end;
  return end;
}

// Code units of the character at `offset`, which is moved behind it.
static std::uint32_t units(std::string_view text, std::size_t& offset, Encoding encoding) {
  const std::size_t begin = offset;
  const char32_t c = next_code_point(text, offset);
  if (encoding == Encoding::utf8) return static_cast<std::uint32_t>(offset - begin);
  return c > 0xFFFF ? 2 : 1;
}

Place Lines_of_text::place_of(std::size_t offset, Encoding encoding) const {
  offset = std::min(offset, text_.size());
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
  const auto line = static_cast<std::size_t>(after - starts_.begin()) - 1;
  Place place{static_cast<std::uint32_t>(line), 0};
  for (std::size_t at = starts_[line]; at < offset;) {
    const std::uint32_t size = units(text_, at, encoding);
    if (at <= offset) place.character += size;
  }
  return place;
}

std::size_t Lines_of_text::offset_of(Place place, Encoding encoding) const {
  if (place.line >= starts_.size()) return text_.size();
  const std::size_t end = end_of(place.line);
  std::size_t at = starts_[place.line];
  for (std::uint32_t left = place.character; at < end;) {
    std::size_t next = at;
    const std::uint32_t size = units(text_, next, encoding);
    if (size > left) break;
    left -= size;
    at = next;
  }
  return at;
}

}
