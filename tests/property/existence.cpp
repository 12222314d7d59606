// Whether a part exists, against searches for it that share nothing with the tests of pairs and triples:
// bands at random, and the part itself or the proof that a search over all parts finds none.
#include "ohmlore/existence.h"
#include "support/cases.h"
#include "support/chance.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace ohmlore {
namespace {

constexpr int cases = test::cases(100'000);
// As a difference of ln R or a share of a resistance: nearer to the edge rounding decides, and neither side
// is held to its word.
constexpr double edge = 1e-9;
constexpr Interval slope = {1000, 8000};

constexpr Interval point(double x) { return {x, x}; }

struct Bands {
  std::vector<double> x; // 1/T, rising
  std::vector<Interval> y;
  std::vector<Gate> gates() const {
    std::vector<Gate> all;
    for (std::size_t i = 0; i < x.size(); ++i) all.push_back({point(x[i]), y[i]});
    return all;
  }
};

std::vector<double> temperatures(test::Chance& random) {
  std::vector<double> x(static_cast<std::size_t>(2 + random.whole(0, 6)));
  for (double& each : x) each = 1 / random.between(233.15, 423.15);
  std::sort(x.begin(), x.end());
  return x;
}

// Bands around a line of any slope, so loose that about half of them can be passed.
Bands random_bands(test::Chance& random, double low_slope, double high_slope) {
  Bands bands{temperatures(random), {}};
  const double b = random.between(low_slope, high_slope), spread = std::exp(random.between(-6, 0));
  for (const double x : bands.x) {
    const double y = 9 + b * (x - 1 / 298.15) + random.between(-spread, spread);
    bands.y.push_back({y - random.between(0, spread), y + random.between(0, spread)});
  }
  return bands;
}

// What ln R can be at each band, coming from the coldest: every curve, not some. Then one of them walked back
// from the hottest. Empty where none passes.
std::vector<double> search_curve(const Bands& bands, double slack) {
  const auto widened_y = [&](std::size_t i) {
    return Interval{bands.y[i].low - slack, bands.y[i].high + slack};
  };
  std::vector<Interval> reached = {widened_y(0)};
  for (std::size_t i = 1; i < bands.x.size(); ++i) {
    const double dx = bands.x[i] - bands.x[i - 1];
    const Interval here = {std::max(widened_y(i).low, reached[i - 1].low + slope.low * dx),
                           std::min(widened_y(i).high, reached[i - 1].high + slope.high * dx)};
    if (here.low > here.high) return {};
    reached.push_back(here);
  }
  std::vector<double> curve(bands.x.size());
  curve.back() = reached.back().middle();
  for (std::size_t i = bands.x.size() - 1; i-- > 0;) {
    const double dx = bands.x[i + 1] - bands.x[i];
    curve[i] = std::clamp(reached[i].middle(), std::max(reached[i].low, curve[i + 1] - slope.high * dx),
                          std::min(reached[i].high, curve[i + 1] - slope.low * dx));
  }
  return curve;
}

bool is_curve_through(const std::vector<double>& curve, const Bands& bands, double slack) {
  for (std::size_t i = 0; i < curve.size(); ++i) {
    if (!(bands.y[i].low - slack <= curve[i] && curve[i] <= bands.y[i].high + slack)) return false;
    if (i == 0) continue;
    const double dx = bands.x[i] - bands.x[i - 1], rise = curve[i] - curve[i - 1];
    if (rise < slope.low * dx - slack || rise > slope.high * dx + slack) return false;
  }
  return true;
}

// From 0.0030 to 0.0034 per kelvin: ln R may rise by 0.4 to 3.2. Which of the two is named first does not
// matter.
TEST(Pair, is_too_flat_or_too_steep_either_way_round) {
  const Gate hot = {point(0.0030), point(7)};
  const auto both = [&](double y) {
    const Gate cold = {point(0.0034), point(y)};
    return std::pair{slope_clash(hot, cold, {1000, 8000}), slope_clash(cold, hot, {1000, 8000})};
  };
  EXPECT_EQ(both(7.39), (std::pair{Slope_clash::too_flat, Slope_clash::too_flat}));
  EXPECT_EQ(both(7.41), (std::pair{Slope_clash::none, Slope_clash::none}));
  EXPECT_EQ(both(10.19), (std::pair{Slope_clash::none, Slope_clash::none}));
  EXPECT_EQ(both(10.21), (std::pair{Slope_clash::too_steep, Slope_clash::too_steep}));
}

TEST(Pair, agrees_with_a_search_over_all_curves) {
  test::Chance random(19230801);
  int none = 0;
  for (int i = 0; i < cases; ++i) {
    const Bands bands = random_bands(random, 500, 9000);
    const std::vector<Gate> gates = bands.gates();
    const auto clash = impossible_pair(gates, slope);
    if (clash) {
      // The two alone are impossible, and nothing passes all.
      const Bands two = {{bands.x[clash->first], bands.x[clash->second]},
                         {bands.y[clash->first], bands.y[clash->second]}};
      ASSERT_TRUE(search_curve(two, -edge).empty());
      ASSERT_TRUE(search_curve(bands, -edge).empty());
      ++none;
    } else {
      const std::vector<double> curve = search_curve(bands, edge);
      ASSERT_FALSE(curve.empty());
      ASSERT_TRUE(is_curve_through(curve, bands, 2 * edge));
    }
  }
  EXPECT_GT(none, cases / 5);
  EXPECT_LT(none, cases * 4 / 5);
}

// A search that knows nothing of intervals: ln R on a grid, each node reached from any node of the band
// before.
bool grid_finds_curve(const Bands& bands) {
  constexpr int steps = 60;
  const auto node = [&](std::size_t i, int k) { return bands.y[i].low + bands.y[i].width() * k / steps; };
  std::array<bool, steps + 1> before{};
  before.fill(true);
  for (std::size_t i = 1; i < bands.x.size(); ++i) {
    std::array<bool, steps + 1> here{};
    const double dx = bands.x[i] - bands.x[i - 1];
    for (int to = 0; to <= steps; ++to)
      for (int from = 0; from <= steps && !here[static_cast<std::size_t>(to)]; ++from) {
        const double rise = node(i, to) - node(i - 1, from);
        here[static_cast<std::size_t>(to)] =
            before[static_cast<std::size_t>(from)] && slope.low * dx <= rise && rise <= slope.high * dx;
      }
    before = here;
  }
  return std::find(before.begin(), before.end(), true) != before.end();
}

TEST(Pair, leaves_nothing_to_find_on_a_grid) {
  test::Chance random(19230801);
  int clashes = 0, found = 0;
  for (int i = 0; i < cases / 4; ++i) {
    const Bands bands = random_bands(random, 500, 9000);
    if (impossible_pair(bands.gates(), slope)) {
      ASSERT_FALSE(grid_finds_curve(bands));
      ++clashes;
    } else {
      found += grid_finds_curve(bands);
    }
  }
  // A grid misses what passes only between its nodes.
  EXPECT_GT(found, (cases / 4 - clashes) * 2 / 3);
}

// Curves whose B wanders between the limits, some of the way along them; bands drawn around such a curve are
// never called impossible.
TEST(Pair, accepts_every_real_curve) {
  test::Chance random(19230801);
  for (int i = 0; i < cases; ++i) {
    const std::vector<double> x = temperatures(random);
    std::vector<Gate> gates;
    double y = random.between(5, 13), before = x.front();
    for (const double here : x) {
      constexpr int pieces = 4;
      for (int piece = 0; piece < pieces; ++piece) {
        const double b = random.whole(0, 3) == 0   ? slope.low
                         : random.whole(0, 2) == 0 ? slope.high
                                                   : random.between(slope.low, slope.high);
        y += b * (here - before) / pieces;
      }
      before = here;
      const double below = random.whole(0, 2) == 0 ? 1e-12 : random.between(0, 0.1),
                   above = random.whole(0, 2) == 0 ? 1e-12 : random.between(0, 0.1);
      const double off = random.whole(0, 1) == 0 ? 0 : 0.005; // of a degree, as it was rounded
      gates.push_back({point(1) / Interval{1 / here - off, 1 / here + off}, {y - below, y + above}});
    }
    ASSERT_FALSE(impossible_pair(gates, slope));
  }
}

// All lines (intercept at 25 °C, slope) that pass: a polygon, cut by two half planes for each band.
struct Line {
  double intercept = 0, slope = 0;
};
using Polygon = std::vector<Line>;

Polygon cut(const Polygon& polygon, double x, double limit, double sign) {
  const auto over = [&](const Line& line) { return sign * (line.intercept + line.slope * x - limit); };
  Polygon kept;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Line &a = polygon[i], &b = polygon[(i + 1) % polygon.size()];
    const double from = over(a), to = over(b);
    if (from >= 0) kept.push_back(a);
    if ((from < 0) == (to < 0)) continue;
    const double share = from / (from - to);
    kept.push_back(
        {a.intercept + (b.intercept - a.intercept) * share, a.slope + (b.slope - a.slope) * share});
  }
  return kept;
}

Polygon lines_through(const Bands& bands, Interval slopes, double slack) {
  Polygon polygon = {{-100, slopes.low}, {100, slopes.low}, {100, slopes.high}, {-100, slopes.high}};
  for (std::size_t i = 0; i < bands.x.size() && !polygon.empty(); ++i) {
    const double x = bands.x[i] - 1 / 298.15;
    polygon = cut(polygon, x, bands.y[i].low - slack, 1);
    polygon = cut(polygon, x, bands.y[i].high + slack, -1);
  }
  return polygon;
}

TEST(Line_test, agrees_with_cutting_half_planes) {
  test::Chance random(19230801);
  int none = 0, by_three = 0;
  for (int i = 0; i < cases; ++i) {
    const Bands bands = random_bands(random, 2800, 4200);
    const Interval slopes = {random.between(2500, 3400), random.between(3500, 4500)};
    const auto clash = impossible_line(bands.gates(), slopes);
    if (clash) {
      Bands witness;
      std::vector<std::size_t> members = *clash;
      ASSERT_LE(members.size(), 3u);
      std::sort(members.begin(), members.end());
      for (const std::size_t member : members) {
        witness.x.push_back(bands.x[member]);
        witness.y.push_back(bands.y[member]);
      }
      ASSERT_TRUE(lines_through(witness, slopes, -edge).empty());
      ASSERT_TRUE(lines_through(bands, slopes, -edge).empty());
      ++none;
      by_three += members.size() == 3;
    } else {
      const Polygon passing = lines_through(bands, slopes, edge);
      ASSERT_FALSE(passing.empty());
      const Line found = passing.front();
      for (std::size_t k = 0; k < bands.x.size(); ++k) {
        const double y = found.intercept + found.slope * (bands.x[k] - 1 / 298.15);
        ASSERT_TRUE(bands.y[k].low - 2 * edge <= y && y <= bands.y[k].high + 2 * edge);
      }
    }
  }
  EXPECT_GT(none, cases / 5);
  EXPECT_LT(none, cases * 4 / 5);
  EXPECT_GT(by_three, cases / 20);
}

TEST(Line_test, accepts_every_line) {
  test::Chance random(19230801);
  constexpr Interval slopes = {3000, 4000};
  for (int i = 0; i < cases; ++i) {
    const double b = random.whole(0, 3) == 0 ? slopes.low : random.between(slopes.low, slopes.high);
    std::vector<Gate> gates;
    for (const double x : temperatures(random)) {
      const double y = 9 + b * (x - 1 / 298.15);
      const double off = random.whole(0, 1) == 0 ? 0 : 0.5; // kelvin
      gates.push_back({point(1) / Interval{1 / x - off, 1 / x + off},
                       {y - (random.whole(0, 1) == 0 ? 1e-12 : random.between(0, 0.1)),
                        y + (random.whole(0, 1) == 0 ? 1e-12 : random.between(0, 0.1))}});
    }
    ASSERT_FALSE(impossible_line(gates, slopes));
  }
}

// Readings without any width, on a line that doubles hold: nothing lies above it for certain.
TEST(Line_test, accepts_what_lies_just_on_the_line) {
  for (const double b : {1.0, -3.0, 7.0}) {
    std::vector<Gate> gates;
    for (const double x : {1.0, 2.0, 3.0, 7.0, 10.0}) gates.push_back({point(x), point(b * x / 3)});
    EXPECT_FALSE(impossible_line(gates, {-10, 10})) << b;
  }
}

// Temperatures that may be off by w: along the steepest line the middle one is read w too early and the outer
// ones w too late, which lifts it by 2 w times the slope above their line.
TEST(Line_test, accepts_the_steepest_line_at_uncertain_temperatures) {
  constexpr double w = 1e-5;
  const auto line = [](double x) { return 8000 * x - 20; };
  const auto read_at = [&](double x, double off) { return Gate{{x - w, x + w}, point(line(x + off))}; };
  EXPECT_FALSE(impossible_line(
      std::vector{read_at(0.0030, -w / 2), read_at(0.0033, w), read_at(0.0036, -w / 2)}, {1000, 8000}));
  EXPECT_FALSE(impossible_line(
      std::vector{read_at(0.0030, w / 2), read_at(0.0033, -w), read_at(0.0036, w / 2)}, {1000, 8000}));
}

// Of two bands at one temperature the stricter holds the line down.
TEST(Line_test, takes_the_stricter_of_two_at_one_temperature) {
  const auto clash = impossible_line(
      std::vector<Gate>{{point(1), {0, 10}}, {point(1), {0, 1}}, {point(2), {5, 9}}, {point(3), {0, 1}}},
      {-100, 100});
  EXPECT_EQ(clash, (std::vector<std::size_t>{1, 2, 3}));
}

// Bands that say nothing on one side, as where a harness of unknown resistance lies in series.
TEST(Line_test, takes_open_sides) {
  const std::vector<Gate> bent = {
      {point(0.0030), {-infinity, 7.0}}, {point(0.0033), {8.5, infinity}}, {point(0.0036), {-infinity, 9.0}}};
  EXPECT_EQ(impossible_line(bent, {1000, 8000}), (std::vector<std::size_t>{0, 1, 2}));
  const std::vector<Gate> loose = {
      {point(0.0030), {7.0, infinity}}, {point(0.0033), {-infinity, 8.5}}, {point(0.0036), {9.0, infinity}}};
  EXPECT_FALSE(impossible_line(loose, {1000, 8000}));
  EXPECT_FALSE(impossible_line({}, {1000, 8000}));
}

// Copper: R at 20 °C is the one parameter. Every value tried in steps, and every band at its temperature.
TEST(Value, agrees_with_trying_all_windings) {
  test::Chance random(19230801);
  int none = 0;
  for (int i = 0; i < cases; ++i) {
    const double k = random.between(225, 245), spread = std::exp(random.between(-6, -1));
    std::vector<Interval> bands, at_20;
    std::vector<double> celsius;
    for (int left = 2 + random.whole(0, 4); left > 0; --left) {
      celsius.push_back(random.between(-20, 120));
      const double ohm = 43 * (k + celsius.back()) / (k + 20) * (1 + random.between(-spread, spread));
      bands.push_back({ohm * (1 - random.between(0, spread)), ohm * (1 + random.between(0, spread))});
      at_20.push_back(copper_resistance(point(20), bands.back(), point(celsius.back()), k));
    }
    const auto keeps = [&](double ohm, double slack) {
      for (std::size_t b = 0; b < bands.size(); ++b) {
        const double there = ohm * (k + celsius[b]) / (k + 20);
        if (there < bands[b].low * (1 - slack) || there > bands[b].high * (1 + slack)) return false;
      }
      return true;
    };
    // The limits of each band at 20 °C, and steps between: one of them keeps all bands if any winding does.
    bool exists = false, surely = false;
    const auto consider = [&](double ohm) {
      exists = exists || keeps(ohm, edge);
      surely = surely || keeps(ohm, -edge);
    };
    for (std::size_t b = 0; b < bands.size(); ++b)
      for (const double end : {bands[b].low, bands[b].high}) consider(end * (k + 20) / (k + celsius[b]));
    for (int step = 0; step <= 100; ++step) consider(43 * (0.3 + 0.014 * step));
    const auto clash = impossible_value(at_20);
    none += clash.has_value();
    if (clash) {
      ASSERT_FALSE(surely);
    } else {
      ASSERT_TRUE(exists);
    }
  }
  EXPECT_GT(none, cases / 5);
  EXPECT_LT(none, cases * 4 / 5);
  EXPECT_FALSE(impossible_value({}));
  EXPECT_FALSE(impossible_value(std::vector<Interval>{{1, 2}, {2, 3}})) << "2 is in both";
}

}
}
