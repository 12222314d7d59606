// The canonical spelling of what was read.
#pragma once

#include "units/reader.h"

#include <string>

namespace ohmlore::units {

/// "kΩ", "K^-2", without the form of a supply.
std::string canonical_unit(const Value& value);

std::string canonical(const Reading& reading, Quantity_grammar grammar,
                      Prefixes prefixes = Prefixes::as_written);

}
