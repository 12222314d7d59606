// What lies too far from the others to be one of them.
#pragma once

#include "fit/regression.h"

namespace ohmlore {

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

/// Where more than so many readings, or a quarter of them, lie too far, it is not they that are wrong.
inline constexpr std::size_t most_outliers = 20;
/// Outliers among readings, one after the other: each is left out before the next is looked for.
std::vector<std::size_t> outlying_readings(const Fit_curve& curve, std::span<const Observation> observations,
                                           std::size_t specimens, bool own_slopes, double rate);

}
