// Where the cursor stands in a text that is being typed, and so mostly is no JSON.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace ohmlore::serve {

/// The word at the cursor, which may be begun only, and its place mended, so that the text reads again.
struct Cursor {
  std::size_t begin = 0,
              end = 0; ///< of the word with its quotation marks, in the text; both equal: there is none
  bool quoted = false; ///< it begins with a quotation mark
  bool is_key = false;
  bool has_colon = false;   ///< of a key: a colon follows
  bool needs_comma = false; ///< another member or item follows without one
  std::string mended;       ///< the text with another key, or `null` as the value, in the place of the word
  std::size_t place = 0;    ///< of that, in `mended`
};

/// Nothing where neither a key nor a value can stand.
std::optional<Cursor> cursor_in(std::string_view text, std::size_t offset);

}
