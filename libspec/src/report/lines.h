// Text for people: wrapped lines with a name at their left, and words of enumerations as they are spoken.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <type_traits>

#include "ohmlore/description.h"

namespace ohmlore {

/// "drift_high" is "drift high".
inline std::string spoken(std::string_view word) {
  std::string out(word);
  std::replace(out.begin(), out.end(), '_', ' ');
  return out;
}
template <class E>
requires std::is_enum_v<E> std::string spoken(E value) { return spoken(word_of(value)); }

/// Wrapped, so that a name at the left stays seen.
struct Lines {
  std::string out;
  /// `text` as it is, behind `first`, further lines indented by as much.
  void wrapped(std::string_view first, std::string_view text);
  /// A line of a block: a name in its column, and a text made safe for a terminal.
  void add(std::string_view name, std::string_view text);
};

}
