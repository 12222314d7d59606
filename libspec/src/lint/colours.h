// Colour codes of wires after IEC 60757.
#pragma once

#include <string>
#include <string_view>

#include "ohmlore/model.h"

namespace ohmlore::rules {

struct Colour {
  std::string_view code, name;
};

/// IEC 60757, in the order of its table.
inline constexpr Colour colours[] = {
    {"BK", "black"}, {"BN", "brown"}, {"RD", "red"},       {"OG", "orange"}, {"YE", "yellow"},
    {"GN", "green"}, {"BU", "blue"},  {"VT", "violet"},    {"GY", "grey"},   {"WH", "white"},
    {"PK", "pink"},  {"GD", "gold"},  {"TQ", "turquoise"}, {"SR", "silver"}, {"GNYE", "green-and-yellow"},
};

/// True for a code, and for a combination of codes in the order of the table ("RDBU").
bool is_colour_code(Text text);

/// The code that a text surely means: another case ("bn"), another order ("BURD"), or the name ("brown",
/// "green/yellow"); empty where it means none.
std::string meant_colour_code(Text text);

/// True for a wire that is green and yellow, however that is written.
bool is_green_and_yellow(const Wire& wire);

}
