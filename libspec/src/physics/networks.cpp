// Readings over other readings, and from resistors to readings.
#include "ohmlore/networks.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace ohmlore {
namespace {

constexpr Interval point(double x) { return {x, x}; }

}

std::optional<Way_round> shortest_way_round(std::span<const Between> readings, std::size_t direct,
                                            bool also_one_leg) {
  const std::size_t from = readings[direct].a, to = readings[direct].b;
  std::size_t terminals = 0;
  for (const Between& reading : readings) terminals = std::max({terminals, reading.a + 1, reading.b + 1});
  constexpr std::size_t none = static_cast<std::size_t>(-1);
  struct Reached {
    Interval ohm = {infinity, infinity};
    std::size_t over = none; // the reading that led here
  };
  std::vector<Reached> reached(terminals);
  reached[from].ohm = {0, 0};
  const auto relax = [&](std::size_t leg, std::size_t here, std::size_t there) {
    const double most = readings[leg].ohm.high;
    if (std::isinf(reached[here].ohm.high) || std::isinf(most) || most < 0) return false;
    if (!also_one_leg && here == from && there == to) return false;
    const Interval longer = reached[here].ohm + readings[leg].ohm;
    if (!(longer.high < reached[there].ohm.high)) return false; // also where one is no number
    reached[there] = {longer, leg};
    return true;
  };
  bool changed = true; // Bellman and Ford
  for (std::size_t round = 0; changed && round < terminals; ++round) {
    changed = false;
    for (std::size_t leg = 0; leg < readings.size(); ++leg) {
      if (leg == direct) continue;
      const bool there = relax(leg, readings[leg].a, readings[leg].b);
      const bool back = relax(leg, readings[leg].b, readings[leg].a);
      changed = changed || there || back;
    }
  }
  if (reached[to].over == none) return std::nullopt;
  Way_round way{{}, reached[to].ohm};
  for (std::size_t here = to; here != from;) {
    const std::size_t leg = reached[here].over;
    way.legs.push_back(leg);
    here = readings[leg].a == here ? readings[leg].b : readings[leg].a;
  }
  std::reverse(way.legs.begin(), way.legs.end());
  return way;
}

namespace {

// The resistance between two nodes of known resistors, rounding enclosed: each other node is taken out of the
// network by the star-mesh transformation, which adds and never subtracts.
Interval reduced(std::span<const Between> resistors, double Interval::*end, std::size_t nodes, std::size_t a,
                 std::size_t b) {
  std::vector<std::size_t> node(nodes); // with resistors of 0 Ω closed
  std::iota(node.begin(), node.end(), 0u);
  for (const Between& r : resistors)
    if (r.ohm.*end == 0)
      std::replace(node.begin(), node.end(), std::size_t(node[r.b]), std::size_t(node[r.a]));
  a = node[a];
  b = node[b];
  if (a == b) return {0, 0};
  const auto conducts_at = [&](std::size_t contact) {
    return std::any_of(resistors.begin(), resistors.end(), [&](const Between& r) {
      return (node[r.a] == contact) != (node[r.b] == contact) && !std::isinf(r.ohm.*end);
    });
  };
  if (!conducts_at(a) || !conducts_at(b)) return point(infinity);
  std::vector<Interval> conductance(nodes * nodes);
  const auto between = [&](std::size_t i, std::size_t j) -> Interval& {
    return conductance[std::min(i, j) * nodes + std::max(i, j)];
  };
  const auto add = [&](std::size_t i, std::size_t j, Interval siemens) {
    Interval& sum = between(i, j);
    sum = sum.high == 0 ? siemens : sum + siemens;
  };
  for (const Between& r : resistors)
    if (node[r.a] != node[r.b] && !std::isinf(r.ohm.*end))
      add(node[r.a], node[r.b], point(1) / point(r.ohm.*end));
  std::vector<std::size_t> near;
  near.reserve(nodes);
  for (std::size_t k = 0; k < nodes; ++k) {
    if (k == a || k == b) continue;
    near.clear();
    Interval total{0, 0};
    for (std::size_t i = 0; i < nodes; ++i)
      if (i != k && between(i, k).high > 0) {
        near.push_back(i);
        total = total + between(i, k);
      }
    for (std::size_t i = 0; i < near.size(); ++i)
      for (std::size_t j = 0; j < i; ++j)
        add(near[i], near[j], between(near[i], k) * between(near[j], k) / total);
    for (const std::size_t i : near) between(i, k) = {0, 0};
  }
  const Interval found = between(a, b);
  return found.high > 0 ? point(1) / found : point(infinity);
}

}

Interval network_resistance(std::span<const Between> resistors, std::size_t nodes, std::size_t a,
                            std::size_t b) {
  return {reduced(resistors, &Interval::low, nodes, a, b).low,
          reduced(resistors, &Interval::high, nodes, a, b).high};
}

}
