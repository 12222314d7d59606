#include "units/table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ohmlore {
namespace {

using units::Unit;

Unit unit_for_people(Dimension dimension) {
  switch (dimension) {
  case Dimension::resistance: return Unit::ohm;
  case Dimension::voltage: return Unit::volt;
  case Dimension::current: return Unit::ampere;
  case Dimension::power: return Unit::watt;
  case Dimension::capacitance: return Unit::farad;
  case Dimension::temperature: return Unit::celsius;
  case Dimension::temperature_difference:
  case Dimension::thermal_constant: return Unit::kelvin;
  case Dimension::time: return Unit::second;
  case Dimension::ratio: return Unit::percent;
  default: return Unit::per_kelvin;
  }
}

// A number rounded to some significant digits: 0.d1 d2 d3 … · 10^point, without trailing zeros; no digits for
// zero.
struct Rounded {
  std::string digits;
  int point = 0;
};

Rounded rounded(double magnitude, int digits) {
  // "1.234e+05": fmt rounds correctly and knows no locale.
  const auto text = fmt::format("{:.{}e}", magnitude, digits - 1);
  const auto e = text.find('e');
  Rounded result;
  for (const char c : text.substr(0, e))
    if (c != '.') result.digits += c;
  int exponent = 0;
  for (const char c : text.substr(e + 2)) exponent = exponent * 10 + (c - '0');
  result.point = 1 + (text[e + 1] == '-' ? -exponent : exponent);
  result.digits.erase(result.digits.find_last_not_of('0') + 1);
  return result;
}

// The digits with their point, zeros filled in on either side.
std::string plain(const std::string& digits, int point) {
  if (digits.empty()) return "0";
  const auto size = static_cast<int>(digits.size());
  if (point <= 0) return "0." + std::string(static_cast<std::size_t>(-point), '0') + digits;
  if (point >= size) return digits + std::string(static_cast<std::size_t>(point - size), '0');
  return digits.substr(0, static_cast<std::size_t>(point)) + '.' +
         digits.substr(static_cast<std::size_t>(point));
}

int floor_to_three(int power) { return power >= 0 ? power / 3 * 3 : -((2 - power) / 3 * 3); }

// Coefficients are written out while that is short: 0.00393 K^-1, but 1.4e-4 K^-1.
std::string coefficient(const Rounded& number) {
  if (number.digits.empty() || (number.point >= -2 && number.point <= 6))
    return plain(number.digits, number.point);
  return fmt::format("{}e{}", plain(number.digits, 1), number.point - 1);
}

// Farther from 1 than this, which no part is, a number is written with a power of ten; what is smaller than
// anything that can be written is the rounding beside a zero.
constexpr int longest = 15;
constexpr double least_written = 1e-30;

// Below this many decimals a temperature shows only the rounding of kelvin to degrees Celsius.
constexpr double finest_celsius = 1e-10;

}

std::string describe(double si, Dimension dimension, int digits) {
  const auto unit = unit_for_people(dimension);
  std::string symbol(units::unit_symbol(unit));
  if (unit == Unit::per_kelvin)
    symbol +=
        static_cast<char>('1' + (static_cast<int>(dimension) - static_cast<int>(Dimension::per_kelvin)));

  double value = unit == Unit::celsius ? si - 273.15 : si;
  if (std::isnan(value)) return "not a number";
  if (std::isinf(value)) return fmt::format("{}infinite {}", value < 0 ? "-" : "", symbol);
  if (unit == Unit::celsius && std::fabs(value) < finest_celsius) value = 0;
  if (unit != Unit::per_kelvin && std::fabs(value) < least_written) value = 0;

  auto number = rounded(std::fabs(value), std::clamp(digits, 1, 17));
  const std::string_view sign = value < 0 ? "-" : "";
  if (unit == Unit::percent) number.point += 2;
  if (unit == Unit::per_kelvin || std::abs(number.point) > longest)
    return fmt::format("{}{} {}", sign, coefficient(number), symbol);

  int prefix = 0;
  const auto range = units::prefix_range(unit);
  if (!number.digits.empty() && unit != Unit::kelvin)
    prefix = std::clamp<int>(floor_to_three(number.point - 1), range.low, range.high);
  return fmt::format("{}{} {}{}", sign, plain(number.digits, number.point - prefix),
                     units::prefix_symbol(prefix), symbol);
}

}
