// Words of enumerations as they are spoken.
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

}
