// The factor of a two-sided statistical tolerance interval.
#include <algorithm>
#include <cmath>

#include "fit/distributions.h"
#include "ohmlore/fit.h"

namespace ohmlore {
namespace {

double density(double z) { return std::exp(-z * z / 2) / std::sqrt(2 * M_PI); }

// Half of the width, in σ, of the interval around x that holds `content` of a standard normal population.
// What it holds grows with the width, ever more slowly: Newton's steps from below never pass the end.
double half_width_around(double x, double content) {
  double r = 0.01;
  for (int i = 0; i < 200; ++i) {
    const double held = normal_below(x + r) - normal_below(x - r);
    const double step = (content - held) / (density(x + r) + density(x - r));
    r += std::clamp(step, -r / 2, 0.5);
    if (std::fabs(step) < 1e-13 * r) break;
  }
  return r;
}

}

// The mean of n values lies x/√n · σ beside the population's, x standard normal. Given x, the interval holds
// enough where k · s is at least the half-width r(x) that this takes: P(χ² >= (n - 1) r² / k²). Its mean over
// x is the confidence; k is where that is the wanted one. The trapezoids of a bell that has fallen to nothing
// at both ends are exact to the digits kept.
double tolerance_factor(std::size_t n, double content, double confidence) {
  constexpr int intervals = 20;
  constexpr double reach = 7; // in standard deviations of the mean
  const double count = static_cast<double>(n), freedom = count - 1, step = reach / intervals;
  double squares[intervals + 1], weights[intervals + 1];
  for (int i = 0; i <= intervals; ++i) {
    const double x = i * step, r = half_width_around(x / std::sqrt(count), content);
    squares[i] = r * r;
    weights[i] = (i == 0 ? 1 : 2) * step * density(x);
  }
  const auto missing = [&](double k) {
    double sum = 0;
    for (int i = 0; i <= intervals; ++i)
      sum += weights[i] * chi_square_above(freedom * squares[i] / (k * k), freedom);
    return confidence - sum;
  };
  double low = normal_quantile(0.5 + content / 2), high = low, at_low = 1, at_high = 1;
  while (at_high > 0 && high < 1e9) low = high, at_low = at_high, high *= 1.5, at_high = missing(high);
  // The chord, with the end that stays halved (Illinois).
  for (int i = 0; i < 100 && high - low > 1e-9 * high; ++i) {
    const double middle = (low * at_high - high * at_low) / (at_high - at_low), here = missing(middle);
    if (std::fabs(here) < 1e-13) return middle;
    if (here > 0) {
      low = middle, at_low = here, at_high /= 2;
    } else {
      high = middle, at_high = here, at_low /= 2;
    }
  }
  return high;
}

}
