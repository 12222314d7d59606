// Contrast of colours after WCAG 2.1: relative luminance and contrast ratio, as its glossary defines them.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>

namespace ohmlore::test {

/// Of "#rrggbb".
inline double luminance(const std::string& colour) {
  double sum = 0;
  const double weights[] = {0.2126, 0.7152, 0.0722};
  for (std::size_t i = 0; i < 3; ++i) {
    const double c = std::stoi(colour.substr(1 + 2 * i, 2), nullptr, 16) / 255.0;
    sum += weights[i] * (c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4));
  }
  return sum;
}

/// 1 to 21.
inline double contrast(const std::string& one, const std::string& other) {
  const double a = luminance(one), b = luminance(other);
  return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

}
