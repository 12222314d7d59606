#include "ohmlore/existence.h"

#include <algorithm>
#include <cmath>

namespace ohmlore {
namespace {

constexpr Interval point(double x) { return {x, x}; }

struct Point {
  double x = 0, y = 0;
  std::size_t gate = 0;
};

// The lower convex hull, by rising x (Andrew's monotone chain). A point at infinity holds nothing down.
std::vector<Point> lower_hull(std::vector<Point> points) {
  points.erase(std::remove_if(points.begin(), points.end(), [](const Point& p) { return std::isinf(p.y); }),
               points.end());
  std::sort(points.begin(), points.end(),
            [](const Point& a, const Point& b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  std::vector<Point> hull;
  const auto turns_up = [&](const Point& next) {
    const Point &a = hull[hull.size() - 2], &b = hull.back();
    return (b.y - a.y) * (next.x - b.x) < (next.y - b.y) * (b.x - a.x);
  };
  for (const Point& next : points) {
    if (!hull.empty() && hull.back().x == next.x) continue; // the lower one stands already
    while (hull.size() > 1 && !turns_up(next)) hull.pop_back();
    hull.push_back(next);
  }
  return hull;
}

// Whether `middle` surely lies above the straight line through two points on either side of it.
bool surely_above(const Point& left, const Point& middle, const Point& right) {
  const Interval to_left = point(middle.x) - point(left.x), to_right = point(right.x) - point(middle.x);
  const Interval line = (point(left.y) * to_right + point(right.y) * to_left) / (to_left + to_right);
  return middle.y > line.high;
}

// A gate whose low end lies above the line through the high ends of one on either side of it. The hull of
// the high ends is the lowest such line; at the gate it is made by two others, as its own high end is not
// below its low end.
std::optional<std::vector<std::size_t>> above_all_lines(const std::vector<Point>& lows,
                                                        const std::vector<Point>& highs) {
  const std::vector<Point> hull = lower_hull(highs);
  for (const Point& low : lows) {
    const auto right =
        std::upper_bound(hull.begin(), hull.end(), low.x, [](double x, const Point& p) { return x < p.x; });
    if (right == hull.begin() || right == hull.end() || !(right[-1].x < low.x)) continue;
    if (surely_above(right[-1], low, *right)) return std::vector{right[-1].gate, low.gate, right->gate};
  }
  return std::nullopt;
}

}

Gate thermistor_gate(Interval kelvin, Interval ohm) { return {point(1) / kelvin, log(ohm)}; }

Slope_clash slope_clash(const Gate& a, const Gate& b, Interval slope) {
  if (a.x.middle() < b.x.middle()) return slope_clash(b, a, slope);
  const Interval across = slope * (a.x - b.x), rise = a.y - b.y;
  if (rise.high < across.low) return Slope_clash::too_flat;
  if (rise.low > across.high) return Slope_clash::too_steep;
  return Slope_clash::none;
}

std::optional<std::pair<std::size_t, std::size_t>> impossible_pair(std::span<const Gate> gates,
                                                                   Interval slope) {
  for (std::size_t i = 0; i < gates.size(); ++i)
    for (std::size_t j = i + 1; j < gates.size(); ++j)
      if (slope_clash(gates[i], gates[j], slope) != Slope_clash::none) return std::pair{i, j};
  return std::nullopt;
}

std::optional<std::vector<std::size_t>> impossible_line(std::span<const Gate> gates, Interval slope) {
  if (const auto pair = impossible_pair(gates, slope)) return std::vector{pair->first, pair->second};
  const double steepest = std::max(std::fabs(slope.low), std::fabs(slope.high));
  std::vector<Point> lows, highs;
  for (std::size_t i = 0; i < gates.size(); ++i) {
    const double x = gates[i].x.middle();
    const double away = (gates[i].x - point(x)).high;
    const Interval y = gates[i].y + point(away) * Interval{-steepest, steepest};
    lows.push_back({x, y.low, i});
    highs.push_back({x, y.high, i});
  }
  if (const auto found = above_all_lines(lows, highs)) return found;
  for (std::vector<Point>* ends : {&lows, &highs}) // the same upside down
    for (Point& end : *ends) end.y = -end.y;
  return above_all_lines(highs, lows);
}

std::optional<std::pair<std::size_t, std::size_t>> impossible_value(std::span<const Interval> intervals) {
  if (intervals.empty()) return std::nullopt;
  const auto highest_low = std::max_element(intervals.begin(), intervals.end(),
                                            [](Interval a, Interval b) { return a.low < b.low; });
  const auto lowest_high = std::min_element(intervals.begin(), intervals.end(),
                                            [](Interval a, Interval b) { return a.high < b.high; });
  if (highest_low->low <= lowest_high->high) return std::nullopt;
  return std::pair{static_cast<std::size_t>(highest_low - intervals.begin()),
                   static_cast<std::size_t>(lowest_high - intervals.begin())};
}

}
