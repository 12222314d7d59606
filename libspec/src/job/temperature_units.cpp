#include "job/temperature_units.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace ohmlore {

Shown_unit unit_of(Temperature_unit unit) {
  switch (unit) {
  case Temperature_unit::fahrenheit: return {"°F", "fahrenheit", 1.8, -459.67};
  case Temperature_unit::kelvin: return {"K", "kelvin", 1, 0};
  case Temperature_unit::celsius: break;
  }
  return {"°C", "celsius", 1, -zero_celsius};
}

double in_unit(double kelvin, Temperature_unit unit) {
  const Shown_unit u = unit_of(unit);
  const double value = std::round((kelvin * u.per_kelvin + u.at_zero_kelvin) * 1e6) / 1e6;
  return value == 0 ? 0 : value;
}

double kelvin_of(double value, Temperature_unit unit) {
  const std::string text = fmt::format("{:.6f} {}", value, unit_of(unit).symbol);
  const auto read = parse_quantity(text, Dimension::temperature);
  return read.value ? read.value->si : 0;
}

std::string decimal_text(double value, int digits) {
  std::string text = fmt::format("{:.{}f}", value, digits);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.ends_with('.')) text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string temperature_text(double kelvin, Temperature_unit unit, int digits) {
  return fmt::format("{} {}", decimal_text(in_unit(kelvin, unit), std::clamp(digits, 0, 17)),
                     unit_of(unit).symbol);
}

}
