#include "fit/distributions.h"

#include <cmath>
#include <initializer_list>

namespace ohmlore {
namespace {

constexpr int most_terms = 10000;
constexpr double precision = 1e-15;
constexpr double tiny = 1e-300; // stands for 0 in a denominator (modified Lentz)

// ln Γ(x), x > 0: std::lgamma writes the sign where all threads read it.
double log_gamma(double x) {
  int sign;
  return lgamma_r(x, &sign);
}

// The regularised incomplete gamma functions, P where `lower`, else Q: the series below a + 1, the continued
// fraction above (Abramowitz and Stegun 6.5.29 and 6.5.31).
double gamma_share(double a, double x, bool lower) {
  if (!(x > 0)) return lower ? 0 : 1;
  const double scale = std::exp(a * std::log(x) - x - log_gamma(a));
  if (x < a + 1) {
    double term = 1 / a, sum = term;
    for (int n = 1; n < most_terms && term > precision * sum; ++n) sum += term *= x / (a + n);
    const double below = scale * sum;
    return lower ? below : 1 - below;
  }
  double b = x + 1 - a, c = 1 / tiny, d = 1 / b, fraction = d;
  for (int n = 1; n < most_terms; ++n) {
    const double numerator = -n * (n - a);
    b += 2;
    d = numerator * d + b;
    c = b + numerator / c;
    if (std::fabs(d) < tiny) d = tiny;
    if (std::fabs(c) < tiny) c = tiny;
    d = 1 / d;
    const double step = c * d;
    fraction *= step;
    if (std::fabs(step - 1) < precision) break;
  }
  const double above = scale * fraction;
  return lower ? 1 - above : above;
}

// The continued fraction of the incomplete beta function (Abramowitz and Stegun 26.5.8).
double beta_fraction(double a, double b, double x) {
  double c = 1, d = 1 - (a + b) * x / (a + 1);
  if (std::fabs(d) < tiny) d = tiny;
  d = 1 / d;
  double fraction = d;
  for (int m = 1; m < most_terms; ++m) {
    double step = 1;
    for (const double numerator : {m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
                                   -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))}) {
      d = 1 + numerator * d;
      c = 1 + numerator / c;
      if (std::fabs(d) < tiny) d = tiny;
      if (std::fabs(c) < tiny) c = tiny;
      d = 1 / d;
      step = c * d;
      fraction *= step;
    }
    if (std::fabs(step - 1) < precision) break;
  }
  return fraction;
}

// The regularised incomplete beta function I_x(a, b); `y` is 1 - x, without its cancellation.
double beta_share(double a, double b, double x, double y) {
  if (!(x > 0)) return 0;
  if (!(y > 0)) return 1;
  const double scale =
      std::exp(log_gamma(a + b) - log_gamma(a) - log_gamma(b) + a * std::log(x) + b * std::log(y));
  if (x < (a + 1) / (a + b + 2)) return scale * beta_fraction(a, b, x) / a;
  return 1 - scale * beta_fraction(b, a, y) / b;
}

// x in [low, high] where a falling function passes `wanted`.
template <class F>
double where_falls_to(double wanted, double low, double high, F f) {
  while (f(high) > wanted && high < 1e300) low = high, high *= 4;
  for (int i = 0; i < 200 && high - low > 1e-15 * high; ++i) {
    const double middle = low + (high - low) / 2;
    (f(middle) > wanted ? low : high) = middle;
  }
  return low + (high - low) / 2;
}

}

double normal_below(double z) { return std::erfc(-z / std::sqrt(2.0)) / 2; }

double normal_quantile(double probability) {
  const double tail = probability < 0.5 ? probability : 1 - probability;
  const double z = where_falls_to(tail, 0, 4, [](double x) { return normal_below(-x); });
  return probability < 0.5 ? -z : z;
}

double chi_square_below(double x, double freedom) { return gamma_share(freedom / 2, x / 2, true); }
double chi_square_above(double x, double freedom) { return gamma_share(freedom / 2, x / 2, false); }

double student_beyond(double x, double freedom) {
  const double square = x * x;
  return beta_share(freedom / 2, 0.5, freedom / (freedom + square), square / (freedom + square));
}

double student_two_sided(double beyond, double freedom) {
  return where_falls_to(beyond, 0, 4, [&](double x) { return student_beyond(x, freedom); });
}

double fisher_above(double x, double freedom_1, double freedom_2) {
  if (!(x > 0)) return 1;
  const double of_1 = freedom_1 * x, sum = of_1 + freedom_2;
  return beta_share(freedom_2 / 2, freedom_1 / 2, freedom_2 / sum, of_1 / sum);
}

}
