// Places in a text as LSP 3.17 counts them: lines and characters from 0 on, a character being a code unit of
// the encoding that was agreed on. A line ends at LF, CR LF or CR.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

namespace ohmlore::serve {

enum class Encoding : std::uint8_t { utf8, utf16 };

struct Place {
  std::uint32_t line = 0;
  std::uint32_t character = 0;
};

/// A text with its lines; a view of it.
class Lines_of_text {
public:
  explicit Lines_of_text(std::string_view text);

  /// Of a byte. One inside of a character counts as where that begins, one past the end as the end.
  Place place_of(std::size_t offset, Encoding encoding) const;
  /// The byte at a place. Past the end of its line it is that end, past the last line the end of the text;
  /// between the two halves of a character it is where that begins.
  std::size_t offset_of(Place place, Encoding encoding) const;

private:
  /// A character in a long line, so that its places are not counted from its start.
  struct Mark {
    std::uint32_t offset = 0, utf16 = 0; ///< its byte in the text; code units before it in its line
  };
  static bool is_before(std::size_t offset, const Mark& mark) { return offset < mark.offset; }
  std::size_t begin_after(std::size_t line) const; ///< of the line that follows, or the end of the text
  std::size_t end_of(std::size_t line) const;      ///< without what ends it
  void set_marks(std::size_t line);
  std::uint32_t character_of(const Mark& mark, std::size_t line, Encoding encoding) const;
  std::string_view text_;
  std::vector<std::uint32_t> starts_;
  std::vector<Mark> marks_; ///< in their order in the text
};

}
