// Quantities as nearly all are spelled, read without the grammar.
#pragma once

#include "ohmlore/quantity.h"

#include <optional>
#include <string_view>

namespace ohmlore::units {

/// The value of a text that is surely spelled in the canonical way: a number, one space and a common unit; of
/// a range also two of them. The value is what the grammar gives (units/reader.h). Of a tolerance it is that
/// of both sides. Nothing: the grammar must be asked.
std::optional<Range> read_plainly(std::string_view text, Quantity_grammar grammar, Dimensions allowed);

}
