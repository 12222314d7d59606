// The distribution of a sum of deviations, prepared once and asked often.
#pragma once

#include <array>
#include <span>

#include "ohmlore/measurement.h"

namespace ohmlore {

class Sum_distribution {
public:
  explicit Sum_distribution(std::span<const Deviation> independent);
  /// P(sum <= x); see probability_below.
  double below(double x) const;
  /// Beyond this on either side it is 0 or 1.
  double reach() const { return reach_; }
  /// See conformity.
  Conformity_probability around(double estimate, Interval limits) const;

private:
  static constexpr std::size_t most_ = 6;
  std::array<double, most_> half_widths_{}; ///< rectangles
  unsigned count_ = 0;
  double sigma_ = 0; ///< a normal deviation that stands for all else
  double reach_ = 0;
  double scale_ = 1; ///< of the alternating sum
};

}
