#include "judge/budget.h"

#include <algorithm>
#include <cmath>

namespace ohmlore {

static std::vector<Contribution> budget_of(const Known& known, const Expected& expected) {
  std::vector<Contribution> budget;
  double slope = 0;
  if (!known.about.empty()) {
    constexpr double step = 0.01; // kelvin
    const auto left = expected.nominal_at(known.x - step), right = expected.nominal_at(known.x + step);
    if (left && right) slope = (*right - *left) / (2 * step);
  }
  const auto add = [&](const Doubt& doubt, bool kelvin_unit, double sensitivity) {
    const double u =
        standard_uncertainty({doubt.half_width, Distribution::rectangular}) * std::fabs(sensitivity);
    if (u > 0) budget.push_back({doubt.from, doubt.half_width, kelvin_unit, sensitivity, u, 0});
  };
  for (const Doubt& doubt : known.own) add(doubt, false, 1);
  for (const Doubt& doubt : known.about) add(doubt, true, slope);
  double variance = 0;
  for (const Contribution& one : budget) variance += one.ohm * one.ohm;
  for (Contribution& one : budget) one.share = variance > 0 ? one.ohm * one.ohm / variance : 0;
  std::stable_sort(budget.begin(), budget.end(),
                   [](const Contribution& a, const Contribution& b) { return a.share > b.share; });
  return budget;
}

double combined(const std::vector<Contribution>& budget) {
  double variance = 0;
  for (const Contribution& one : budget) variance += one.ohm * one.ohm;
  return std::sqrt(variance);
}

std::vector<Contribution> budget_of(const Case& one) {
  const Known& known = one.known;
  if (!one.by_ohm()) return budget_of(known, one.expected);
  std::vector<Contribution> budget = budget_of({known.ohm, known.own, 0, {}, {}, {}}, one.expected);
  for (const Doubt& doubt : known.about)
    budget.push_back({doubt.from, doubt.half_width, false, -1, doubt.half_width / std::sqrt(3.0), 0});
  const double u = combined(budget);
  for (Contribution& part : budget) part.share = u > 0 ? std::pow(part.ohm / u, 2) : 0;
  return budget;
}

}
