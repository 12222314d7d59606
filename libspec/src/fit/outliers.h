// What lies too far from the others to be one of them.
#pragma once

#include "fit/regression.h"
#include "ohmlore/fit.h"

namespace ohmlore {

/// The share that each test has of Fit_means::false_alarms. Of fewer than four specimens none is named.
struct False_alarms {
  double readings = 0, specimens = 0, groups = 0;
};
inline False_alarms false_alarms(const Fit_means& means, std::size_t specimens) {
  const double all = means.false_alarms;
  if (specimens < 4) return {all, 0, 0};
  return {0.45 * all, 0.45 * all, 0.1 * all};
}

/// Residuals, each over what the others say of its standard deviation (externally studentised; Cook and
/// Weisberg 1982): Student's t with one degree of freedom less than the fit has. Empty for a reading that
/// alone determines its own residual. The standard deviation is no less than what rounding alone makes.
std::vector<std::optional<double>> studentised(const Regression& regression);
/// The same of single values around their mean, with the variance that rounding makes of each: n - 2 degrees
/// of freedom. Empty for fewer than 4.
std::vector<std::optional<double>> studentised(std::span<const double> values,
                                               std::span<const double> resolutions);

/// The farthest of them, where it lies so far at most once in 1/rate tables without a mistake: t of
/// `freedom`, two-sided, corrected for how many there are (Bonferroni).
std::optional<std::size_t> farthest(std::span<const std::optional<double>> studentised, double freedom,
                                    double rate);

/// Values that lie in two groups of two or more.
struct Two_groups {
  std::vector<std::size_t> smaller; ///< which are in the smaller group, in the order of the values
  double off = 0;                   ///< its mean less that of the others
  double within = 0;                ///< standard deviation within the groups
  double chance = 1;                ///< that values of one normal distribution lie so in any two groups
};
/// The two groups that lie farthest apart for what is within them: Student's t of two means, the greatest of
/// all ways to part the values (as Engelman and Hartigan 1969), corrected for how many there are
/// (Bonferroni). The means lie apart by no more than rounding leaves, whose variance is given. Empty for
/// fewer than 4.
std::optional<Two_groups> two_groups(std::span<const double> values, double resolution);

/// Where more than so many readings, or a quarter of them, lie too far, it is not they that are wrong.
inline constexpr std::size_t most_outliers = 20;
/// Outliers among readings, one after the other: each is left out before the next is looked for.
std::vector<std::size_t> outlying_readings(const Fit_curve& curve, std::span<const Observation> observations,
                                           std::size_t specimens, bool own_slopes, double rate);

}
