// Temperatures in the unit in which a curve shows them.
#pragma once

#include <string>
#include <string_view>

#include "ohmlore/curve.h"

namespace ohmlore {

struct Shown_unit {
  std::string_view symbol, word;
  double per_kelvin, at_zero_kelvin;
};
Shown_unit unit_of(Temperature_unit unit);
/// To a millionth: what is beyond comes of the conversion alone.
double in_unit(double kelvin, Temperature_unit unit);
/// The double that a document's "25 °C" gives, so that a row at 25 °C is met.
double kelvin_of(double value, Temperature_unit unit);

/// At most so many digits after the point.
std::string decimal_text(double value, int digits);

}
