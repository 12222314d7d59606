// A `pattern` of a JSON Schema: an expression of ECMAScript over characters, as far as RE2 knows it.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "publish/regular_expression.h"

namespace ohmlore {

struct Pattern {
  struct Demand {
    std::shared_ptr<const Regular_expression> expression;
    bool found; // or not found
  };
  std::vector<Demand> demands;
  std::string problem; ///< what is to be said of it where it cannot be used, else empty
};

Pattern compile_pattern(std::string_view text);

/// Whether a part of the text has the form; false for a pattern that cannot be used.
bool found(const Pattern& pattern, std::string_view text);

}
