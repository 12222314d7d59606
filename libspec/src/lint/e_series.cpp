#include "lint/e_series.h"

#include <array>
#include <cmath>
#include <span>

namespace ohmlore::rules {
namespace {

// The older series are not the roundings of a formula: 2.7 to 4.7 and 8.2 stand a tenth beside it.
constexpr int e24[] = {100, 110, 120, 130, 150, 160, 180, 200, 220, 240, 270, 300,
                       330, 360, 390, 430, 470, 510, 560, 620, 680, 750, 820, 910};

std::array<int, 192> by_formula() {
  std::array<int, 192> values{};
  for (std::size_t k = 0; k < values.size(); ++k)
    values[k] = static_cast<int>(std::lround(100 * std::pow(10, static_cast<double>(k) / 192)));
  values[185] = 920; // in the standard; 919 by the formula
  return values;
}

// The values of a decade, in hundredths.
std::span<const int> values_of(E_series series) {
  static const auto e192 = by_formula();
  return series == E_series::e24 ? std::span<const int>(e24) : e192;
}

}

double nearest_preferred(E_series series, double ohm) {
  const double decade = std::floor(std::log10(ohm)), unit = std::pow(10, decade - 2);
  double nearest = 1000 * unit; // the first of the next decade
  for (const int value : values_of(series))
    if (const double candidate = value * unit; std::fabs(candidate - ohm) < std::fabs(nearest - ohm))
      nearest = candidate;
  return nearest;
}

bool is_preferred(E_series series, double ohm) {
  constexpr double rounding = 1e-12; // of the decimals
  return std::fabs(nearest_preferred(series, ohm) - ohm) <= rounding * ohm;
}

}
