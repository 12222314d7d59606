// Words about values that schemas and tables share.
#pragma once

#include <string>

#include "ohmlore/description.h"

namespace ohmlore {

/// "a resistance (Ω) or a ratio (%)"
std::string dimension_words(Dimensions dimensions);

/// What a reference refers to ("an entry of `components`"), or empty.
std::string_view target_words(Target target);

/// The limit that applies to the number of items of a list or map.
constexpr std::int64_t most_of(const Field& field) {
  return field.limits.most != 0 ? field.limits.most : most_items;
}

}
