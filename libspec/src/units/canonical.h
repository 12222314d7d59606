// The canonical spelling of what was read.
#pragma once

#include "units/reader.h"

#include <string>

namespace ohmlore::units {

/// "kΩ", "K^-2", without the form of a supply.
std::string canonical_unit(const Value& value);

/// Surely spelled like that, told without reading it, as of nearly every quantity it can be. False: it must
/// be read.
bool plainly_canonical(std::string_view text, Quantity_grammar grammar, Dimensions allowed);

std::string canonical(const Reading& reading, Quantity_grammar grammar,
                      Prefixes prefixes = Prefixes::as_written);

}
