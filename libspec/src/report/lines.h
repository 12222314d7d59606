// Reports for people: lines with a name at the left, wrapped.
#pragma once

#include <string>
#include <string_view>
#include <type_traits>

#include "ohmlore/words.h"

namespace ohmlore {

/// A word of the format as it is spoken: without underscores.
std::string spoken(std::string_view word);
template <class E>
requires std::is_enum_v<E> std::string spoken(E value) { return spoken(word_of(value)); }

struct Lines {
  std::string out;
  /// `text` behind `first`, the lines that follow indented as far. No line ends between a number and its
  /// unit.
  void wrapped(std::string_view first, std::string_view text);
  /// A line of a list: a name, and what there is to say, made safe for a terminal.
  void add(std::string_view name, std::string_view text);
};

}
