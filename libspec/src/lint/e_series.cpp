#include "lint/e_series.h"

#include <cmath>

namespace ohmlore::rules {
namespace {

// The older series are not the roundings of a formula: 2.7 to 4.7 and 8.2 stand a tenth beside it.
constexpr int e24[] = {100, 110, 120, 130, 150, 160, 180, 200, 220, 240, 270, 300,
                       330, 360, 390, 430, 470, 510, 560, 620, 680, 750, 820, 910};

// The k-th value of a decade, in hundredths.
int value(E_series series, int k) {
  if (series == E_series::e24) return e24[k];
  constexpr int exception = 185; // 919 by the formula, 920 in the standard
  return k == exception ? 920 : static_cast<int>(std::lround(100 * std::pow(10, k / 192.0)));
}

}

double nearest_preferred(E_series series, double ohm) {
  const int count = series == E_series::e24 ? 24 : 192;
  const double decade = std::floor(std::log10(ohm)), unit = std::pow(10, decade - 2);
  double nearest = 1000 * unit; // the first of the next decade
  for (int k = 0; k < count; ++k)
    if (const double candidate = value(series, k) * unit;
        std::fabs(candidate - ohm) < std::fabs(nearest - ohm))
      nearest = candidate;
  return nearest;
}

bool is_preferred(E_series series, double ohm) {
  constexpr double rounding = 1e-12; // of the decimals
  return std::fabs(nearest_preferred(series, ohm) - ohm) <= rounding * ohm;
}

}
