#include "judge/budget.h"

#include <algorithm>
#include <cmath>

namespace ohmlore {

// How much the limits move with what they hang on, in ohm for each unit of it.
static double slope_of(const Case& one) {
  if (one.by_ohm()) return -1;
  if (one.known.about.empty() || !one.expected.has_course(one.known.x)) return 0;
  return slope_at(one.expected, one.known.x, 0.01);
}

std::vector<Contribution> budget_of(const Case& one) {
  std::vector<Contribution> budget;
  const auto add = [&](const Doubt& doubt, bool in_kelvin, double sensitivity) {
    const double u =
        standard_uncertainty({doubt.half_width, Distribution::rectangular}) * std::fabs(sensitivity);
    if (u > 0) budget.push_back({doubt.from, doubt.half_width, in_kelvin, sensitivity, u, 0});
  };
  const double slope = slope_of(one);
  for (const Doubt& doubt : one.known.own) add(doubt, false, 1);
  for (const Doubt& doubt : one.known.about) add(doubt, !one.by_ohm(), slope);
  double variance = 0;
  for (const Contribution& part : budget) variance += part.ohm * part.ohm;
  for (Contribution& part : budget) part.share = variance > 0 ? part.ohm * part.ohm / variance : 0;
  std::stable_sort(budget.begin(), budget.end(),
                   [](const Contribution& a, const Contribution& b) { return a.share > b.share; });
  return budget;
}

double combined(const std::vector<Contribution>& budget) {
  double variance = 0;
  for (const Contribution& part : budget) variance += part.ohm * part.ohm;
  return std::sqrt(variance);
}

}
