// What is said of networks, against brute force: 100,000 random cases. Networks with hidden nodes, solved
// here by Gauss's elimination, must never be called impossible however they are rounded; what is called
// impossible must stay so under a search for the network; and what another method proves impossible must be
// called so.
#include "ohmlore/networks.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <string>
#include <vector>

#include "ohmlore/lint.h"
#include "support/cases.h"
#include "support/chance.h"

namespace ohmlore {
namespace {

struct Random : test::Chance {
  using Chance::Chance;
  double over_decades(double decades) { return std::pow(10, between(-decades / 2, decades / 2)); }
};

using Matrix = std::vector<std::vector<double>>;

// x with a x = right side, by Gauss's elimination with partial pivoting.
std::vector<double> solved(Matrix a, std::vector<double> x) {
  const std::size_t n = x.size();
  for (std::size_t k = 0; k < n; ++k) {
    std::size_t best = k;
    for (std::size_t i = k; i < n; ++i)
      if (std::fabs(a[i][k]) > std::fabs(a[best][k])) best = i;
    std::swap(a[k], a[best]);
    std::swap(x[k], x[best]);
    for (std::size_t i = k + 1; i < n; ++i) {
      const double factor = a[i][k] / a[k][k];
      for (std::size_t j = k; j < n; ++j) a[i][j] -= factor * a[k][j];
      x[i] -= factor * x[k];
    }
  }
  for (std::size_t k = n; k-- > 0;) {
    for (std::size_t j = k + 1; j < n; ++j) x[k] -= a[k][j] * x[j];
    x[k] /= a[k][k];
  }
  return x;
}

struct Edge {
  std::size_t a, b;
  double siemens;
};

// The readings between the first nodes: the voltage that 1 A makes, node 0 earthed.
Matrix readings_of(const std::vector<Edge>& edges, std::size_t nodes, std::size_t terminals) {
  Matrix laplacian(nodes - 1, std::vector<double>(nodes - 1));
  for (const auto& [a, b, g] : edges) {
    if (a > 0) laplacian[a - 1][a - 1] += g;
    if (b > 0) laplacian[b - 1][b - 1] += g;
    if (a > 0 && b > 0) laplacian[a - 1][b - 1] -= g, laplacian[b - 1][a - 1] -= g;
  }
  Matrix volt; // at each node, for 1 A into each terminal
  for (std::size_t i = 1; i < terminals; ++i) {
    std::vector<double> current(nodes - 1);
    current[i - 1] = 1;
    volt.push_back(solved(laplacian, current));
  }
  Matrix ohm(terminals, std::vector<double>(terminals));
  for (std::size_t i = 1; i < terminals; ++i)
    for (std::size_t j = 0; j < i; ++j)
      ohm[i][j] = ohm[j][i] =
          volt[i - 1][i - 1] + (j > 0 ? volt[j - 1][j - 1] - volt[i - 1][j - 1] - volt[j - 1][i - 1] : 0);
  return ohm;
}

// Connected: a random tree (windings in series, a star), and some more resistors, of some decades.
std::vector<Edge> any_network(Random& random, std::size_t nodes) {
  std::vector<Edge> edges;
  const double decades = random.between(0, 4);
  const bool line = random.whole(0, 3) == 0, star = random.whole(0, 3) == 0;
  for (std::size_t i = 1; i < nodes; ++i) {
    const std::size_t to = line   ? i - 1
                           : star ? 0
                                  : static_cast<std::size_t>(random.whole(0, static_cast<int>(i) - 1));
    edges.push_back({i, to, random.over_decades(decades)});
  }
  const int more = random.whole(0, static_cast<int>(nodes));
  for (int i = 0; i < more; ++i) {
    const auto a = static_cast<std::size_t>(random.whole(0, static_cast<int>(nodes) - 1));
    const auto b = static_cast<std::size_t>(random.whole(0, static_cast<int>(nodes) - 1));
    if (a != b) edges.push_back({a, b, random.over_decades(decades)});
  }
  return edges;
}

// As somebody writes it: to some digits, or within a tolerance that the part keeps.
Interval written(Random& random, double ohm) {
  if (random.whole(0, 1) == 0) {
    const double digit = std::pow(10, std::floor(std::log10(ohm)) - random.whole(1, 3));
    const double rounded = std::round(ohm / digit) * digit;
    return {std::max(rounded - digit / 2, digit / 1000) * (1 - 1e-12), (rounded + digit / 2) * (1 + 1e-12)};
  }
  const double share = std::pow(10, random.between(-4, -1));
  const double nominal = ohm / (1 + random.between(-share, share));
  return {nominal * (1 - share) * (1 - 1e-12), nominal * (1 + share) * (1 + 1e-12)};
}

bool breaks_a_triangle(const std::vector<Between>& readings) {
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const auto way = shortest_way_round(readings, i, true);
    if (way && way->ohm.high < readings[i].ohm.low) return true;
  }
  return false;
}

// ---- known values

// A delta of 30, 60 and 90 Ω reads 25, 40 and 45 Ω (ngspice and numpy, in the reference folder's README); a
// cube of 1 Ω reads 5/6 Ω across a diagonal of space, 3/4 Ω of a face, 7/12 Ω along an edge (from memory, a
// common exercise).
TEST(Networks, read_what_is_known) {
  const std::vector<Between> delta = {{0, 1, {30, 30}}, {1, 2, {60, 60}}, {0, 2, {90, 90}}};
  const double expected[] = {25, 40, 45};
  for (std::size_t i = 0; i < 3; ++i) {
    const Interval found = network_resistance(delta, 3, delta[i].a, delta[i].b);
    EXPECT_TRUE(found.contains(expected[i]));
    EXPECT_LT(found.width(), 1e-12);
  }
  std::vector<Between> cube;
  for (std::size_t corner = 0; corner < 8; ++corner)
    for (const std::size_t bit : {1u, 2u, 4u})
      if ((corner & bit) == 0) cube.push_back({corner, corner | bit, {1, 1}});
  EXPECT_NEAR(network_resistance(cube, 8, 0, 7).middle(), 5.0 / 6, 1e-14);
  EXPECT_NEAR(network_resistance(cube, 8, 0, 3).middle(), 3.0 / 4, 1e-14);
  EXPECT_NEAR(network_resistance(cube, 8, 0, 1).middle(), 7.0 / 12, 1e-14);
}

// A square of four equal resistors reads 4/3 as much across as along a side, and nothing reads more: there
// the resistors across are missing.
TEST(Networks, a_square_reads_at_most_four_thirds_across) {
  const auto square = [](double across) {
    const Interval side = {1, 1}, diagonal = {across, across};
    return std::vector<Between>{{0, 1, side}, {1, 2, side},     {2, 3, side},
                                {3, 0, side}, {0, 2, diagonal}, {1, 3, diagonal}};
  };
  EXPECT_FALSE(find_unrealizable(square(1.3333), 4));
  const auto found = find_unrealizable(square(1.3334), 4);
  ASSERT_TRUE(found);
  EXPECT_FALSE(breaks_a_triangle(square(1.3334)));
  ASSERT_TRUE(found->most);
  EXPECT_LT(*found->most, 1.3334);
}

// Two leads of 10 and 20 Ω on the ends of one resistor of 5 Ω, or both on one end of it: in series they read
// no more than their sum, and the bound is reached (Ohm's law).
TEST(Networks, between_four_terminals_a_tree_reads_the_most) {
  const auto point = [](double ohm) { return Interval{ohm, ohm}; };
  EXPECT_NEAR(most_between_four(point(10), point(15), point(25), point(20), point(5)), 35, 1e-12);
  EXPECT_NEAR(most_between_four(point(10), point(15), point(20), point(25), point(5)), 30, 1e-12);
}

TEST(Networks, hold_links_without_resistance) {
  const std::vector<Between> links = {{0, 1, {0, 0}}, {1, 2, {10, 10}}, {2, 3, {0, 5}}, {3, 4, {0, 0}}};
  const auto between = [&](std::size_t a, std::size_t b) { return network_resistance(links, 5, a, b); };
  EXPECT_EQ(between(0, 1).high, 0);
  EXPECT_NEAR(between(0, 2).middle(), 10, 1e-12);
  EXPECT_EQ(between(2, 4).low, 0);
  EXPECT_NEAR(between(2, 4).high, 5, 1e-12);
  EXPECT_NEAR(between(0, 4).low, 10, 1e-12);
  EXPECT_NEAR(between(0, 4).high, 15, 1e-12);
}

// A reading alone says nothing of itself; another of the same two terminals does where that is asked for.
TEST(Networks, have_a_way_round_by_other_readings_only) {
  const std::vector<Between> alone = {{0, 1, {10, 11}}};
  EXPECT_FALSE(shortest_way_round(alone, 0, true));
  const double nothing = std::numeric_limits<double>::quiet_NaN(); // no reading, and no way that never ends
  const Between unread[] = {{0, 1, {nothing, nothing}}, {1, 2, {nothing, nothing}}, {0, 2, {1, 1}}};
  EXPECT_FALSE(shortest_way_round(unread, 2, true));
  const std::vector<Between> twice = {{0, 1, {10, 11}}, {1, 0, {12, 13}}};
  EXPECT_FALSE(shortest_way_round(twice, 0, false));
  const auto other = shortest_way_round(twice, 0, true);
  ASSERT_TRUE(other);
  EXPECT_EQ(other->legs, std::vector<std::size_t>{1});
  EXPECT_TRUE(other->ohm.contains(12) && other->ohm.contains(13));
}

// Two values of one reading that do not overlap are no reading: another rule's finding.
TEST(Networks, are_not_judged_by_what_contradicts_itself) {
  const std::vector<Between> readings = {
      {0, 1, {10, 11}}, {0, 1, {90, 91}}, {1, 2, {10, 11}}, {0, 2, {20, 22}}};
  EXPECT_FALSE(find_unrealizable(readings, 3));
}

// ---- networks are possible

TEST(Networks, are_never_called_impossible) {
  Random random(7);
  constexpr int cases = test::cases(40000);
  for (int i = 0; i < cases; ++i) {
    const auto terminals = static_cast<std::size_t>(random.whole(3, i % 20 == 0 ? 8 : 5));
    const std::size_t nodes = terminals + static_cast<std::size_t>(random.whole(0, 4));
    const auto edges = any_network(random, nodes);
    const Matrix ohm = readings_of(edges, nodes, terminals);
    std::vector<Between> readings, some;
    for (std::size_t a = 0; a < terminals; ++a)
      for (std::size_t b = 0; b < a; ++b) {
        readings.push_back({a, b, written(random, ohm[a][b])});
        if (random.whole(0, 2) > 0) some.push_back(readings.back());
      }
    ASSERT_FALSE(breaks_a_triangle(readings)) << i;
    ASSERT_FALSE(breaks_a_triangle(some)) << i;
    ASSERT_FALSE(find_unrealizable(readings, terminals)) << i;
    std::vector<Between> resistors;
    for (const auto& [a, b, g] : edges) {
      const double share = random.between(0, 0.1);
      resistors.push_back({a, b, {1 / g * (1 - share), 1 / g * (1 + share)}});
    }
    const double exact = ohm[1][0];
    const Interval enclosed = network_resistance(resistors, nodes, 1, 0);
    ASSERT_LE(enclosed.low, exact * (1 + 1e-9)) << i;
    ASSERT_GE(enclosed.high, exact * (1 - 1e-9)) << i;
  }
}

// A network that reads at one end of each band: their middles are no network, and the bands too wide for what
// is computed from the middles to enclose it.
TEST(Networks, at_the_ends_of_wide_bands_are_not_called_impossible) {
  const Matrix ohm = readings_of({{1, 0, 24.09839221191782},
                                  {2, 1, 0.13386193514141551},
                                  {3, 2, 0.023541661261639389},
                                  {0, 3, 19.216554876686477}},
                                 4, 4);
  const std::vector<Between> readings = {{1, 0, {0.037413319534901096, 0.041462133807288942}},
                                         {2, 0, {6.3842560460369118, 14.731275716488778}},
                                         {2, 1, {5.9353592631300414, 6.3551833576670003}},
                                         {3, 0, {0.041917301288537247, 0.051984349254010041}},
                                         {3, 1, {0.093360178562178417, 0.39864959017100254}},
                                         {3, 2, {5.5949629948787436, 6.420617189573175}}};
  for (const Between& reading : readings) EXPECT_TRUE(reading.ohm.contains(ohm[reading.a][reading.b]));
  EXPECT_FALSE(find_unrealizable(readings, 4));
}

// As narrow as can be: all resistors at one end.
TEST(Networks, read_from_all_low_to_all_high) {
  Random random(11);
  for (int i = 0; i < 5000; ++i) {
    const auto nodes = static_cast<std::size_t>(random.whole(2, 7));
    const auto edges = any_network(random, nodes);
    std::vector<Between> resistors;
    std::vector<Edge> low, high;
    for (const auto& [a, b, g] : edges) {
      const double share = random.between(0, 0.2);
      resistors.push_back({a, b, {(1 - share) / g, (1 + share) / g}});
      low.push_back({a, b, g / (1 - share)});
      high.push_back({a, b, g / (1 + share)});
    }
    const Interval found = network_resistance(resistors, nodes, 1, 0);
    EXPECT_NEAR(found.low, readings_of(low, nodes, 2)[1][0], found.low * 1e-9);
    EXPECT_NEAR(found.high, readings_of(high, nodes, 2)[1][0], found.high * 1e-9);
  }
}

// ---- three terminals, exactly

// Three terminals read as a star. The legs x with low <= x_a + x_b <= high and x >= 0 are a bounded
// polyhedron: it has a point if and only if it has a corner, where three of the nine bounds hold.
bool a_star_exists(const std::array<Interval, 3>& ohm, double slack) {
  struct Plane {
    std::array<double, 3> normal;
    double least; // normal · x >= least
  };
  std::vector<Plane> planes;
  for (std::size_t i = 0; i < 3; ++i) {
    std::array<double, 3> leg{}, pair{1, 1, 1}, minus{-1, -1, -1};
    leg[i] = 1;
    pair[i] = minus[i] = 0;
    planes.push_back({leg, 0});
    planes.push_back({pair, ohm[i].low});
    planes.push_back({minus, -ohm[i].high});
  }
  for (std::size_t i = 0; i < 9; ++i)
    for (std::size_t j = 0; j < i; ++j)
      for (std::size_t k = 0; k < j; ++k) {
        const auto &a = planes[i].normal, &b = planes[j].normal, &c = planes[k].normal;
        const double determinant = a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) +
                                   a[2] * (b[0] * c[1] - b[1] * c[0]);
        if (std::fabs(determinant) < 0.5) continue; // whole numbers
        const auto x = solved({{a[0], a[1], a[2]}, {b[0], b[1], b[2]}, {c[0], c[1], c[2]}},
                              {planes[i].least, planes[j].least, planes[k].least});
        if (std::all_of(planes.begin(), planes.end(), [&](const Plane& p) {
              return p.normal[0] * x[0] + p.normal[1] * x[1] + p.normal[2] * x[2] >= p.least - slack;
            }))
          return true;
      }
  return false;
}

TEST(Networks, of_three_terminals_exist_just_where_none_is_called_impossible) {
  Random random(13);
  int none = 0;
  constexpr int cases = test::cases(20000);
  for (int i = 0; i < cases; ++i) {
    std::array<Interval, 3> ohm;
    for (Interval& o : ohm) {
      const double middle = random.between(1, 10), share = random.between(0, 0.3);
      o = {middle * (1 - share), middle * (1 + share)};
    }
    if (a_star_exists(ohm, 1e-9) != a_star_exists(ohm, -1e-9)) continue; // too near to say
    const bool exists = a_star_exists(ohm, 0);
    none += !exists;
    const std::vector<Between> readings = {{1, 2, ohm[0]}, {0, 2, ohm[1]}, {0, 1, ohm[2]}};
    ASSERT_EQ(breaks_a_triangle(readings), !exists) << i;
    ASSERT_EQ(find_unrealizable(readings, 3).has_value(), !exists) << i;
  }
  EXPECT_GT(none, cases / 10);
  EXPECT_LT(none, cases * 9 / 10);
}

// ---- more terminals, by search

using Box = std::vector<Between>; // complete

// By how much each reading of a network misses a box, in logarithms; 0 within.
std::vector<double> misses(const std::vector<double>& logarithms, std::size_t n, const Box& box) {
  std::vector<Edge> edges;
  for (std::size_t i = 0; i < box.size(); ++i) edges.push_back({box[i].a, box[i].b, std::exp(logarithms[i])});
  const Matrix ohm = readings_of(edges, n, n);
  std::vector<double> missed;
  for (const auto& [a, b, allowed] : box) {
    const double r = ohm[a][b];
    if (!(r > 0) || !std::isfinite(r)) return std::vector<double>(box.size(), 1e9);
    missed.push_back(std::min(0.0, std::log(r / allowed.low)) + std::max(0.0, std::log(r / allowed.high)));
  }
  return missed;
}

double squared(const std::vector<double>& x) {
  return std::inner_product(x.begin(), x.end(), x.begin(), 0.0);
}

// Conductances between all pairs, from random starts, each time led into the box by damped least squares on
// their logarithms with slopes from differences. The box is seen a little smaller, so that least squares can
// end within.
bool search_finds_network(Random& random, std::size_t n, const Box& box, int starts) {
  const std::size_t count = box.size();
  Box inner = box;
  for (Between& reading : inner) {
    const double margin = reading.ohm.width() / 50;
    reading.ohm = {reading.ohm.low + margin, reading.ohm.high - margin};
  }
  for (int start = 0; start < starts; ++start) {
    std::vector<double> x;
    for (const auto& [a, b, ohm] : box)
      x.push_back(std::log(2 / static_cast<double>(n) / ohm.middle() * random.over_decades(1)));
    double damping = 1e-3;
    for (int step = 0; step < 40 && damping < 1e6; ++step) {
      const auto now = misses(x, n, inner);
      if (squared(misses(x, n, box)) == 0) return true;
      Matrix slope, normal(count, std::vector<double>(count));
      for (std::size_t e = 0; e < count; ++e) {
        auto beside = x;
        beside[e] += 1e-6;
        slope.push_back(misses(beside, n, inner));
        for (std::size_t q = 0; q < count; ++q) slope[e][q] = (slope[e][q] - now[q]) / 1e-6;
      }
      std::vector<double> downhill(count);
      for (std::size_t e = 0; e < count; ++e) {
        downhill[e] = -std::inner_product(now.begin(), now.end(), slope[e].begin(), 0.0);
        for (std::size_t f = 0; f < count; ++f)
          normal[e][f] = std::inner_product(slope[e].begin(), slope[e].end(), slope[f].begin(), 0.0);
      }
      bool better = false;
      for (; !better && damping < 1e6; damping *= better ? 0.1 : 10) {
        auto damped = normal;
        for (std::size_t e = 0; e < count; ++e) damped[e][e] += damping * 1e-3 + damping * damped[e][e];
        const auto move = solved(damped, downhill);
        auto then = x;
        for (std::size_t e = 0; e < count; ++e) then[e] += std::clamp(move[e], -3.0, 3.0);
        better = squared(misses(then, n, inner)) < squared(now);
        if (better) x = then;
      }
    }
  }
  return false;
}

Box any_box(Random& random, std::size_t n) {
  // Between readings of a network and readings at random, so that about half are possible.
  const Matrix ohm = readings_of(any_network(random, n + 1), n + 1, n);
  const double astray = random.between(0, 1.2), share = random.between(0.001, 0.15);
  Box box;
  for (std::size_t a = 0; a < n; ++a)
    for (std::size_t b = 0; b < a; ++b) {
      const double middle = ohm[a][b] * std::exp(random.between(-astray, astray));
      box.push_back({a, b, {middle * (1 - share), middle * (1 + share)}});
    }
  return box;
}

// Whatever is called impossible, no search finds; and where nothing is said, a network is there, but for a
// few boxes on the brink.
TEST(Networks, are_found_by_search_where_none_is_called_impossible) {
  Random random(17);
  int impossible = 0, beyond_triangles = 0, found = 0, open = 0;
  constexpr int cases = test::cases(20000);
  for (int i = 0; i < cases; ++i) {
    const auto n = static_cast<std::size_t>(random.whole(3, 5));
    const Box box = any_box(random, n);
    const bool triangle = breaks_a_triangle(box);
    const bool said = find_unrealizable(box, n).has_value();
    ASSERT_TRUE(said || !triangle) << i;
    if (!said) {
      search_finds_network(random, n, box, 6) ? ++found : ++open;
      continue;
    }
    ++impossible;
    beyond_triangles += !triangle;
    if (!triangle || i % 10 == 0) {
      ASSERT_FALSE(search_finds_network(random, n, box, 2)) << i;
    }
  }
  fmt::print("{} impossible ({} beyond triangles), {} found by the search, {} open\n", impossible,
             beyond_triangles, found, open);
  EXPECT_GT(beyond_triangles, cases / 200);
  EXPECT_GT(found, cases / 10);
  EXPECT_LE(open, cases / 100);
}

// Around a matrix whose Laplacian has something positive off its diagonal, a box so small that the perturbed
// Laplacian cannot lose it: ‖L' - L‖ <= ‖L‖² e / (1 - ‖L‖ e), e = ‖dR‖/2 (Frobenius norms; Neumann series).
// The Laplacian comes from Fiedler's bordered matrix: the inverse of [0 1; 1 R], times -2, holds it.
TEST(Networks, are_called_impossible_where_a_perturbation_bound_proves_it) {
  Random random(19);
  int proved = 0, undecided = 0;
  constexpr int cases = test::cases(20000);
  for (int i = 0; i < cases; ++i) {
    const auto n = static_cast<std::size_t>(random.whole(4, 7));
    Box box = any_box(random, n);
    Matrix bordered(n + 1, std::vector<double>(n + 1));
    for (const auto& [a, b, ohm] : box) bordered[a + 1][b + 1] = bordered[b + 1][a + 1] = ohm.middle();
    for (std::size_t k = 0; k < n; ++k) bordered[0][k + 1] = bordered[k + 1][0] = 1;
    double norm_2 = 0, worst = 0;
    for (std::size_t k = 0; k < n; ++k) {
      std::vector<double> unit(n + 1);
      unit[k + 1] = 1;
      const auto column = solved(bordered, unit);
      for (std::size_t j = 0; j < n; ++j) {
        const double l = -2 * column[j + 1];
        norm_2 += l * l;
        if (j != k) worst = std::max(worst, l);
      }
    }
    const double norm = std::sqrt(norm_2);
    // The widest radius e that the bound allows, and a little less: worst = norm² e / (1 - norm e).
    const double e = 0.999 * worst / (norm_2 + norm * worst);
    if (!(worst > 1e-6 * norm) || !std::isfinite(e)) continue;
    const double radius = 2 * e / std::sqrt(static_cast<double>(n * (n - 1)));
    bool positive = true;
    for (Between& reading : box) {
      const double middle = reading.ohm.middle();
      reading.ohm = {middle - radius, middle + radius};
      positive = positive && reading.ohm.low > 0;
    }
    if (!positive) continue;
    ++proved;
    undecided += !find_unrealizable(box, n);
  }
  fmt::print("{} proved impossible, {} of them not called so\n", proved, undecided);
  EXPECT_GT(proved, cases / 4);
  EXPECT_EQ(undecided, 0);
}

// ---- whole plugs, as profiles

struct Part {
  std::size_t a, b;
  double ohm;
};

std::string plug_of(const std::vector<Part>& parts, const std::vector<Between>& tests, double tolerance) {
  std::string components, expectations;
  for (std::size_t i = 0; i < parts.size(); ++i)
    components += fmt::format(R"({}"r{}": {{ "kind": "resistor", "name": "R", "purely_resistive": true,
          "between": ["X4.{}", "X4.{}"],
          "model": {{ "kind": "fixed", "resistance": "{:.6f} Ω", "tolerance": "{:.6f} %" }} }})",
                              i == 0 ? "" : ", ", i, parts[i].a, parts[i].b, parts[i].ohm, 100 * tolerance);
  for (std::size_t i = 0; i < tests.size(); ++i)
    expectations +=
        fmt::format(R"({}"t{}": {{ "component": "apart", "unplug": "X4", "side": "at_board_plug",
          "probes": ["X4.{}", "X4.{}"],
          "expect": {{ "kind": "band", "min": "{:.6f} Ω", "max": "{:.6f} Ω", "at": "20 °C" }} }})",
                    i == 0 ? "" : ", ", i, tests[i].a, tests[i].b, tests[i].ohm.low, tests[i].ohm.high);
  return fmt::format(R"({{ "format": "ohmlore/1.0", "kind": "profile", "id": "plug", "revision": 1,
      "appliance": {{ "maker": "Orrinvale", "models": ["Larch 24 C"], "type": "hybrid", "fuel": "oil",
        "controller": {{ "part": "OV-4410" }} }},
      "safety": {{ "supplies": [{{ "kind": "mains", "isolate_at": "spur" }}] }},
      "sources": {{ "sheet": {{ "kind": "maker_document", "title": "Sheet" }} }}, "source": {{ "from": "sheet" }},
      "connectors": {{ "X4": {{ "label": "X4", "ways": 10, "circuit": "selv",
        "pins": {{ "0": {{}}, "1": {{}}, "2": {{}}, "3": {{}}, "4": {{}}, "8": {{}}, "9": {{}} }} }} }},
      "components": {{ "apart": {{ "kind": "resistor", "name": "R", "between": ["X4.8", "X4.9"] }}, {} }}, "tests": {{ {} }} }})",
                     components, expectations);
}

bool has_error_of(const std::string& profile, std::initializer_list<std::string_view> rules) {
  const Linted linted = lint_document(read_json("plug.profile.json", profile), {});
  return std::any_of(linted.findings.begin(), linted.findings.end(), [&](const Finding& finding) {
    return finding.severity == Severity::error &&
           std::find(rules.begin(), rules.end(), finding.rule) != rules.end();
  });
}

// Resistors on one plug, each with its tolerance (and one apart that the tests name, so that no rule of
// single parts speaks), and tests between contacts that expect all that a healthy plug reads, found by the
// solver above at both ends: no error. One test that lies below: an error, on that ground alone.
TEST(Networks, of_whole_plugs_are_judged_by_all_that_lies_on_them) {
  Random random(23);
  int seen = 0;
  constexpr int cases = test::cases(3000);
  for (int i = 0; i < cases; ++i) {
    const auto contacts = static_cast<std::size_t>(random.whole(3, 5));
    const double tolerance = random.between(0.01, 0.1);
    std::vector<Part> parts;
    std::vector<Edge> low, high;
    for (const auto& [a, b, g] : any_network(random, contacts)) {
      parts.push_back({a, b, 1000 / g});
      low.push_back({a, b, g / 1000 / (1 - tolerance)});
      high.push_back({a, b, g / 1000 / (1 + tolerance)});
    }
    const Matrix least = readings_of(low, contacts, contacts), most = readings_of(high, contacts, contacts);
    std::vector<Between> tests;
    for (std::size_t a = 0; a < contacts; ++a)
      for (std::size_t b = 0; b < a; ++b)
        if (random.whole(0, 2) > 0) tests.push_back({a, b, {least[a][b], most[a][b]}});
    if (tests.empty()) continue;
    ASSERT_FALSE(has_error_of(plug_of(parts, tests, tolerance),
                              {"triangle-broken", "readings-unrealizable", "expectation-outside-network"}))
        << plug_of(parts, tests, tolerance);
    const auto one = static_cast<std::size_t>(random.whole(0, static_cast<int>(tests.size()) - 1));
    const double shift = random.between(0.5, 0.999) * tests[one].ohm.low / tests[one].ohm.high;
    tests = {{tests[one].a, tests[one].b, {tests[one].ohm.low * shift, tests[one].ohm.high * shift}}};
    ASSERT_TRUE(has_error_of(plug_of(parts, tests, tolerance), {"expectation-outside-network"}))
        << plug_of(parts, tests, tolerance);
    ++seen;
  }
  EXPECT_GT(seen, cases * 9 / 10);
}

}
}
