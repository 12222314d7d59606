#include "judge/probable.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "judge/sum.h"

namespace ohmlore {
namespace {

// No resistance is below zero, however little the meter tells.
Interval without_zero(Interval limits) { return limits.low > 0 ? limits : Interval{-infinity, limits.high}; }

Sum_distribution sum_of(const std::vector<Doubt>& doubts) {
  std::vector<Deviation> deviations;
  for (const Doubt& doubt : doubts) deviations.push_back({doubt.half_width, Distribution::rectangular});
  return Sum_distribution(deviations);
}

// Beyond the end of a range, by the meter: what it reads there may be off as any other reading is.
Probable beyond(const Known& known, Interval limits) {
  double end = *known.beyond;
  for (const Doubt& doubt : known.own) end -= doubt.half_width;
  if (limits.high <= end) return {{0, 0, 1}, {0, 0, 1}};
  const double any_below = limits.low > end ? 1 : 0, any_above = std::isinf(limits.high) ? 0 : 1;
  const double surely_within = any_below + any_above == 0 ? 1 : 0;
  return {{0, surely_within, 0}, {any_below, 1, any_above}};
}

// Limits over a range of x, asked at a few and straight between: they are smooth.
class Limits_between {
public:
  Limits_between(const Limits_at& limits, Interval range, Interval otherwise) : range_(range) {
    for (std::size_t i = 0; i < knots_.size(); ++i) {
      const double x = range.low + range.width() * static_cast<double>(i) / last_;
      if (const auto here = limits(x)) otherwise = *here;
      knots_[i] = without_zero(otherwise);
    }
  }
  Interval at(double x) const {
    const double place = (x - range_.low) / range_.width() * last_;
    const auto left = std::min(static_cast<std::size_t>(std::max(place, 0.0)), knots_.size() - 2);
    const double part = place - static_cast<double>(left);
    const auto mixed = [&](double a, double b) {
      return std::isinf(a) || std::isinf(b) ? a : a + part * (b - a);
    };
    return {mixed(knots_[left].low, knots_[left + 1].low), mixed(knots_[left].high, knots_[left + 1].high)};
  }

private:
  Interval range_;
  std::array<Interval, 33> knots_;
  static constexpr double last_ = 32;
};

Probable beside(const Known& known, const Sum_distribution& own, Interval limits) {
  if (known.beyond) return beyond(known, limits);
  const Conformity_probability one = own.around(known.ohm, limits);
  return {one, one};
}

void add(Conformity_probability& sum, double weight, const Conformity_probability& one) {
  sum.below += weight * one.below;
  sum.within += weight * one.within;
  sum.above += weight * one.above;
}

Probable mean(const Known& known, const Limits_at& limits, Interval at_middle) {
  const Sum_distribution own = sum_of(known.own), about = sum_of(known.about);
  if (about.reach() == 0) return beside(known, own, without_zero(at_middle));
  const Limits_between between(limits, {known.x - about.reach(), known.x + about.reach()}, at_middle);
  // So many that a limit moves by little of the reading's own doubt in one of them.
  const Interval first = between.at(known.x - about.reach()), last = between.at(known.x + about.reach());
  const auto moves = [](double a, double b) { return std::isinf(a) || std::isinf(b) ? 0 : std::fabs(b - a); };
  const double most = std::max(moves(first.low, last.low), moves(first.high, last.high));
  const int cells = own.reach() > 0 && !known.beyond
                        ? static_cast<int>(std::clamp(12 * most / own.reach(), 32.0, 1000.0))
                        : 1000;
  const double width = 2 * about.reach() / cells;
  Probable sum;
  double before = 0;
  for (int i = 0; i < cells; ++i) {
    const double left = -about.reach() + i * width;
    const double up_to = i + 1 == cells ? 1 : about.below(left + width);
    const Probable one = beside(known, own, between.at(known.x + left + width / 2));
    add(sum.least, up_to - before, one.least);
    add(sum.most, up_to - before, one.most);
    before = up_to;
  }
  return sum;
}

void widen(Probable& all, const Probable& one) {
  for (double Conformity_probability::*part :
       {&Conformity_probability::below, &Conformity_probability::within, &Conformity_probability::above}) {
    all.least.*part = std::min(all.least.*part, one.least.*part);
    all.most.*part = std::max(all.most.*part, one.most.*part);
  }
}

}

Limits_at service_of(const Expected& expected) {
  return [&expected](double x) { return expected.service_beside(x); };
}

std::optional<Probable> probable(const Known& known, const Limits_at& limits) {
  if (!known.room) {
    const auto here = limits(known.x);
    return here ? std::optional(mean(known, limits, *here)) : std::nullopt;
  }
  const Sum_distribution own = sum_of(known.own);
  constexpr int steps = 100;
  std::optional<Probable> all;
  for (int i = 0; i <= steps; ++i) {
    const double x = known.room->low + known.room->width() * i / steps;
    const auto here = limits(x);
    if (!here) continue;
    const Probable one = beside(known, own, without_zero(*here));
    if (!all) all = one;
    widen(*all, one);
  }
  return all;
}

Conformity decide(const Probable& probable, const Decision_rule& rule) {
  return decide(probable.least, rule);
}

}
