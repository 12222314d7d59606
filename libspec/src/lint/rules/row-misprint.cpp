// A wrong digit in a table that still falls shows as a kink of ln R over 1/T, which is nearly straight for a
// thermistor: each row is compared with the curve through its neighbours.
#include <algorithm>
#include <vector>

#include "lint/b_values.h"

namespace ohmlore::rules {
namespace {

struct Point {
  const Table_row* row = nullptr;
  double kelvin = 0;
  double x = 0;    // 1/T
  double y = 0;    // ln R
  double half = 0; // of the last digit, as a part of R: the rounding of y
};

// Rows by rising temperature; empty where two share one.
std::vector<Point> points_of(const Resistance_model& model) {
  std::vector<Point> points;
  for (const Table_row& row : model.rows) {
    if (!row.at || !(row.at->si > 0)) continue;
    Point p{&row, row.at->si, 1 / row.at->si};
    if (row.nominal && row.nominal->si > 0) {
      p.y = std::log(row.nominal->si);
      p.half = row.nominal->half_digit / row.nominal->si;
    } else if (row.min && row.max && row.min->si > 0 && row.max->si >= row.min->si) {
      // The limits bend away from each other where the tolerance is least; their mean does not bend.
      p.y = std::log(row.min->si * row.max->si) / 2;
      p.half = (row.min->half_digit / row.min->si + row.max->half_digit / row.max->si) / 2;
    } else {
      continue;
    }
    points.push_back(p);
  }
  std::sort(points.begin(), points.end(), [](const Point& a, const Point& b) { return a.kelvin < b.kelvin; });
  const auto twice = [](const Point& a, const Point& b) { return a.kelvin == b.kelvin; };
  if (std::adjacent_find(points.begin(), points.end(), twice) != points.end()) points.clear();
  return points;
}

struct Departure {
  double from_curve = 0; // ln of the written over the expected resistance
  double rounding = 0;   // how much of it the digits of all rows involved explain
  double excess() const { return std::fabs(from_curve) - rounding; }
};

// Row `i` against the cubic through the two neighbours on either side, or the nearest four at an end; row
// `without` is left out.
Departure departure(const std::vector<Point>& points, std::size_t i, std::size_t without) {
  std::size_t near[4];
  std::size_t count = 0;
  const auto usable = [&](std::size_t k) { return k != i && k != without; };
  std::size_t low = i, high = i;
  const auto take_below = [&](std::size_t most) {
    while (most > 0 && low > 0 && count < 4)
      if (usable(--low)) near[count++] = low, --most;
  };
  const auto take_above = [&](std::size_t most) {
    while (most > 0 && high + 1 < points.size() && count < 4)
      if (usable(++high)) near[count++] = high, --most;
  };
  take_below(2);
  take_above(2);
  take_below(4);
  take_above(4);
  double expected = 0, rounding = points[i].half;
  for (std::size_t k = 0; k < count; ++k) {
    double weight = 1;
    for (std::size_t m = 0; m < count; ++m)
      if (m != k) weight *= (points[i].x - points[near[m]].x) / (points[near[k]].x - points[near[m]].x);
    expected += weight * points[near[k]].y;
    rounding += std::fabs(weight) * points[near[k]].half;
  }
  return {points[i].y - expected, rounding};
}

// Common practice is no guide here: the numbers are chosen on published tables (see the page).
constexpr std::size_t enough_rows = 12; // to tell a misprint from the roughness of measured rows
constexpr double least_departure = 0.001;
constexpr double least_kink = 60;    // kelvin of B, from one neighbour to the other
constexpr double least_contrast = 4; // to the worst of all other rows
constexpr std::size_t reach = 3;     // rows that one misprint disturbs on either side

struct Suspect {
  std::size_t index = 0;
  Departure departure;
};

bool stands_out(const std::vector<Point>& points, std::size_t i, const Departure& found) {
  const double kink = least_kink * (points[i - 1].x - points[i + 1].x) / 4;
  if (found.excess() <= least_departure + kink) return false;
  for (std::size_t k = 1; k + 1 < points.size(); ++k)
    if (k != i && found.excess() < least_contrast * departure(points, k, i).excess()) return false;
  return true;
}

std::vector<Suspect> suspects(const std::vector<Point>& points) {
  std::vector<Suspect> all;
  for (std::size_t i = 1; i + 1 < points.size(); ++i) {
    const Departure found = departure(points, i, i);
    if (stands_out(points, i, found)) all.push_back({i, found});
  }
  // Of two so near that either may have made the other suspect, neither can be named.
  std::vector<Suspect> alone;
  for (const Suspect& s : all)
    if (std::none_of(all.begin(), all.end(), [&](const Suspect& other) {
          const std::size_t apart = std::max(s.index, other.index) - std::min(s.index, other.index);
          return apart != 0 && apart <= reach;
        }))
      alone.push_back(s);
  return alone;
}

// The text that differs in a digit, or in the order of two neighbouring digits, and lies on the curve; empty
// where there is none, or another that is nearly as near.
std::string meant(Text written, double expected, double tolerance) {
  constexpr double clearly = 4; // times as near as the next
  std::string best;
  double nearest = tolerance, next = tolerance;
  const auto consider = [&](const std::string& text) {
    if (text == written || text == best) return;
    const auto parsed = parse_quantity(text, Dimension::resistance);
    if (!parsed.value || !(parsed.value->si > 0)) return;
    const double distance = std::fabs(std::log(parsed.value->si / expected));
    if (distance < nearest) {
      next = best.empty() ? tolerance : nearest;
      nearest = distance;
      best = text;
    } else {
      next = std::min(next, distance);
    }
  };
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  for (std::size_t i = 0; i < written.size(); ++i) {
    if (!digit(written[i])) continue;
    std::string text(written);
    for (char c = '0'; c <= '9'; ++c) {
      text[i] = c;
      consider(text);
    }
    text = written;
    const std::size_t other = i + 1 < text.size() && text[i + 1] == '.' ? i + 2 : i + 1;
    if (other < text.size() && digit(text[other])) {
      std::swap(text[i], text[other]);
      consider(text);
    }
  }
  return next >= clearly * nearest || next == tolerance ? best : std::string();
}

void check_long(const Subject& subject, Sink& sink, const std::vector<Point>& points) {
  for (const Suspect& s : suspects(points)) {
    const Point &point = points[s.index], &before = points[s.index - 1], &after = points[s.index + 1];
    const double expected = std::exp(point.y - s.departure.from_curve);
    const bool nominal = point.row->nominal && point.row->nominal->si > 0;
    const Node_id node = nominal ? point.row->nominal.node : point.row->node;
    const std::string better =
        nominal ? meant(subject.document.string(node), expected, s.departure.rounding + least_departure)
                : std::string();
    sink.report(
        node, fmt::format(
                  "{} at {} is {} off the curve through its neighbours, which gives {} there, and "
                  "no other row is: {}",
                  nominal ? ohm(point.row->nominal->si)
                          : fmt::format("the middle of {}", ohm(*row_interval(*point.row))),
                  celsius(point.kelvin),
                  describe(std::fabs(std::expm1(s.departure.from_curve)), Dimension::ratio, 2), ohm(expected),
                  better.empty() ? "look for a wrong digit" : fmt::format("a misprint of {}?", better)));
    sink.relate(before.row->node, fmt::format("{} at {}", ohm(std::exp(before.y)), celsius(before.kelvin)));
    sink.relate(after.row->node, fmt::format("{} at {}", ohm(std::exp(after.y)), celsius(after.kelvin)));
  }
}

// Three rows of a short table: by how much the middle one leaves every curve whose B grows with temperature
// as B does in published tables, 0.8 to 7.7 kelvin per kelvin with their noise.
constexpr Interval b_growth = {-3, 9};
constexpr double roughness = 0.03; // of rows that were measured with 1 % and half a kelvin

struct Bend {
  std::size_t middle = 0;
  double excess = 0;
  double expected = 0; // ln R of the middle row
};

Bend bend(const std::vector<Point>& points, std::size_t i) {
  const Point &a = points[i - 1], &p = points[i], &c = points[i + 1];
  const double first = a.x - p.x, second = p.x - c.x;
  const double share = first / (first + second);
  const double straight = a.y + (c.y - a.y) * share;
  // ln R of the middle row rises above the straight line by this much for each kelvin per kelvin.
  const double growth = first * second / (first + second) * (c.kelvin - a.kelvin) / 2;
  const double off = p.y - straight;
  const double outside = std::max(off - b_growth.high * growth, b_growth.low * growth - off);
  const double rounding = p.half + a.half * (1 - share) + c.half * share;
  return {i, outside - rounding - roughness, straight + b_growth.middle() * growth};
}

void check_short(Sink& sink, const std::vector<Point>& points) {
  Bend worst;
  for (std::size_t i = 1; i + 1 < points.size(); ++i)
    if (const Bend found = bend(points, i); found.excess > worst.excess) worst = found;
  if (worst.middle == 0) return;
  const Point &a = points[worst.middle - 1], &p = points[worst.middle], &c = points[worst.middle + 1];
  const auto b = [](const Point& from, const Point& to) { return kelvin((from.y - to.y) / (from.x - to.x)); };
  sink.report(
      p.row->nominal ? p.row->nominal.node : p.row->node,
      fmt::format("the rows at {}, {} and {} lie on no curve of a thermistor: B is {} between the first two "
                  "and {} between the last two; by the other two the middle one is about {} instead of {}: "
                  "look for a wrong digit in the three",
                  celsius(a.kelvin), celsius(p.kelvin), celsius(c.kelvin), b(a, p), b(p, c),
                  describe(std::exp(worst.expected), Dimension::resistance, 2), ohm(std::exp(p.y))));
  sink.relate(a.row->node, fmt::format("the row at {}", celsius(a.kelvin)));
  sink.relate(c.row->node, fmt::format("the row at {}", celsius(c.kelvin)));
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (!is_bare_ntc(component) || !impossible_ntc_rows(rows_by_temperature(subject.document, model)).empty())
      return;
    const std::vector<Point> points = points_of(model);
    if (points.size() >= enough_rows)
      check_long(subject, sink, points);
    else if (points.size() >= 3)
      check_short(sink, points);
  });
}

}

extern const Rule row_misprint = {
    .family = Family::ntc,
    .severity = Severity::warning,
    .summary = "One row of a thermistor's table lies off the curve of the others.",
    .check = check,
};

}
