// What lists of words and ids name.
#pragma once

#include <algorithm>

#include "ohmlore/value.h"

namespace ohmlore {

/// True where one of the values that could be read is the wanted one.
template <class T, class Wanted>
bool names(const List<Value<T>>& list, const Wanted& wanted) {
  return std::any_of(list.begin(), list.end(), [&](const Value<T>& one) { return one && *one == wanted; });
}

}
