// Degrees Fahrenheit beside degrees Celsius: papers print both.
#pragma once

#include "ohmlore/value.h"

namespace ohmlore::rules {

/// Of a temperature as it is written.
inline bool is_in_fahrenheit(Text temperature) {
  return temperature.find('F') != Text::npos || temperature.find("\u2109") != Text::npos;
}

}
