// The factor of a two-sided statistical tolerance interval.
#include <cmath>

#include "fit/distributions.h"
#include "ohmlore/fit.h"

namespace ohmlore {
namespace {

// Half of the width, in σ, of the interval around x that holds `content` of a standard normal population.
double half_width_around(double x, double content) {
  double low = 0, high = x + 40;
  for (int i = 0; i < 200 && high - low > 1e-14 * high; ++i) {
    const double middle = low + (high - low) / 2;
    const double held = normal_below(x + middle) - normal_below(x - middle);
    (held < content ? low : high) = middle;
  }
  return high;
}

}

// The mean of n values lies x/√n · σ beside the population's, x standard normal. Given x, the interval holds
// enough where k · s is at least the half-width r(x) that this takes: P(χ² >= (n - 1) r² / k²). Its mean over
// x is the confidence; k is where that is the wanted one. Integrated by Simpson's rule, as Odeh and Owen did.
double tolerance_factor(std::size_t n, double content, double confidence) {
  constexpr int intervals = 240;
  constexpr double reach = 8; // in standard deviations of the mean
  const double count = static_cast<double>(n), freedom = count - 1, step = reach / intervals;
  double squares[intervals + 1], weights[intervals + 1];
  for (int i = 0; i <= intervals; ++i) {
    const double x = i * step, r = half_width_around(x / std::sqrt(count), content);
    squares[i] = r * r;
    const double simpson = i == 0 || i == intervals ? 1 : i % 2 == 1 ? 4 : 2;
    weights[i] = 2 * simpson * step / 3 * std::exp(-x * x / 2) / std::sqrt(2 * M_PI);
  }
  const auto reached = [&](double k) {
    double sum = 0;
    for (int i = 0; i <= intervals; ++i)
      sum += weights[i] * chi_square_above(freedom * squares[i] / (k * k), freedom);
    return sum;
  };
  double low = 0, high = 1;
  while (reached(high) < confidence && high < 1e9) low = high, high *= 2;
  for (int i = 0; i < 100 && high - low > 1e-10 * high; ++i) {
    const double middle = low + (high - low) / 2;
    (reached(middle) < confidence ? low : high) = middle;
  }
  return high;
}

}
