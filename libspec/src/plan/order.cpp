#include "ohmlore/order.h"

#include <algorithm>
#include <array>
#include <limits>

#include "plan/likelier.h"

namespace ohmlore {
namespace {

constexpr double nothing = 1e-9; // less than this is rounding
// Branches less probable than this are not looked into; a tree of that many measurements is enough to
// compare.
constexpr double too_rare = 2e-3;
constexpr std::size_t most_looked_at = 4; // candidates
// Nor further than this, so that no problem takes long: hypotheses times tests, and measurements of one tree.
constexpr std::size_t largest_looked_into = 2000, most_nodes = 300;

// Of each culprit, or of all: the weight of every showing, and last that of all of them.
using Weights = std::array<double, showing_count + 1>;

// The sum of squared shares of the culprits, times the whole: 1 - this is Gini's index where the whole is 1.
double concentration(const std::vector<Weights>& by_culprit, const Weights& whole, std::size_t column) {
  double squares = 0;
  for (const Weights& one : by_culprit) squares += one[column] * one[column];
  return whole[column] > 0 ? squares / whole[column] : 0;
}

// What a test separates, where that is worth its minutes; else 0.
double worth_of(const Order_problem& problem, const Order_state& state, std::size_t test) {
  if (state.taken[test]) return 0;
  const double separation = separation_of(problem, state, test);
  return separation > (state.abnormal ? worth_after_abnormal : nothing) ? separation : 0;
}

std::vector<bool> undone(const Order_problem& problem, std::vector<bool> done, std::size_t test) {
  const Measurement_work& work = problem.tests[test];
  for (const auto* list : {&work.apart, &work.lost})
    for (const std::size_t what : *list) done[what] = false;
  return done;
}

struct Candidate {
  std::size_t test = 0;
  double rate = 0; ///< separation for a minute
};

// Best first; of equals the one that is named first.
std::vector<Candidate> candidates(const Order_problem& problem, const Order_state& state) {
  std::vector<Candidate> all;
  for (std::size_t test = 0; test < problem.tests.size(); ++test)
    if (const double worth = worth_of(problem, state, test); worth > 0)
      all.push_back({test, worth / minutes_of(problem, state, test)});
  std::stable_sort(all.begin(), all.end(),
                   [](const Candidate& a, const Candidate& b) { return is_likelier(a.rate, b.rate); });
  return all;
}

// Minutes that are left on average, each next test chosen by its rate alone. `nodes` counts down; at 0 the
// answer means nothing.
double minutes_left(const Order_problem& problem, const Order_state& state, double reached,
                    std::size_t& nodes, std::optional<std::size_t> first = {}) {
  if (nodes == 0 || --nodes == 0) return 0;
  if (!first) {
    double best = 0;
    for (std::size_t test = 0; test < problem.tests.size(); ++test) {
      const double worth = worth_of(problem, state, test);
      if (worth == 0) continue;
      const double rate = worth / minutes_of(problem, state, test);
      if (first && rate <= best + nothing) continue;
      best = rate;
      first = test;
    }
  }
  if (!first) return 0;
  double minutes = minutes_of(problem, state, *first);
  for (std::size_t i = 0; i < showing_count; ++i) {
    const auto shown = static_cast<Showing>(i);
    const double probable = probability_of(problem, state, *first, shown);
    if (reached * probable < too_rare) continue;
    minutes +=
        probable * minutes_left(problem, after(problem, state, *first, {shown}), reached * probable, nodes);
  }
  return minutes;
}

}

Order_state beginning(const Order_problem& problem) {
  Order_state state;
  double sum = 0;
  for (const Hypothesis& one : problem.hypotheses) sum += one.weight;
  for (const Hypothesis& one : problem.hypotheses) state.weights.push_back(sum > 0 ? one.weight / sum : 0);
  state.taken.assign(problem.tests.size(), false);
  state.done.assign(problem.chores, false);
  return state;
}

double minutes_of(const Order_problem& problem, const Order_state& state, std::size_t test) {
  const Measurement_work& work = problem.tests[test];
  double minutes = work.minutes;
  for (const std::size_t what : work.apart)
    if (state.done[what]) minutes += put_back_minutes;
  for (const Chore& chore : work.chores)
    if (!state.done[chore.what]) minutes += chore.minutes;
  return minutes;
}

double probability_of(const Order_problem& problem, const Order_state& state, std::size_t test,
                      Showing shown) {
  double sum = 0;
  for (std::size_t i = 0; i < problem.hypotheses.size(); ++i)
    sum += state.weights[i] * problem.hypotheses[i].shows[test][static_cast<std::size_t>(shown)];
  return sum;
}

double separation_of(const Order_problem& problem, const Order_state& state, std::size_t test) {
  std::vector<Weights> by_culprit(problem.culprits);
  Weights whole = {};
  for (std::size_t i = 0; i < problem.hypotheses.size(); ++i) {
    const double weight = state.weights[i];
    if (weight == 0) continue;
    const Hypothesis& one = problem.hypotheses[i];
    Weights& culprit = by_culprit[one.culprit];
    for (std::size_t column = 0; column <= showing_count; ++column) {
      const double share = column < showing_count ? weight * one.shows[test][column] : weight;
      culprit[column] += share;
      whole[column] += share;
    }
  }
  double found = 0;
  for (std::size_t shown = 0; shown < showing_count; ++shown)
    found += concentration(by_culprit, whole, shown);
  return found - concentration(by_culprit, whole, showing_count);
}

Order_state after(const Order_problem& problem, const Order_state& state, std::size_t test,
                  const std::vector<Showing>& shown) {
  Order_state next = state;
  double sum = 0;
  for (std::size_t i = 0; i < problem.hypotheses.size(); ++i) {
    double share = 0;
    for (const Showing one : shown) share += problem.hypotheses[i].shows[test][static_cast<std::size_t>(one)];
    sum += next.weights[i] *= share;
  }
  for (double& weight : next.weights) weight = sum > nothing ? weight / sum : 0;
  next.taken[test] = true;
  next.done = undone(problem, std::move(next.done), test);
  for (const Chore& chore : problem.tests[test].chores) next.done[chore.what] = true;
  if (std::find(shown.begin(), shown.end(), Showing::healthy) == shown.end()) next.abnormal = true;
  return next;
}

bool is_worth_it(const Order_problem& problem, const Order_state& state, std::size_t test) {
  return worth_of(problem, state, test) > 0;
}

std::optional<std::size_t> next_test(const Order_problem& problem, const Order_state& state) {
  std::vector<Candidate> few = candidates(problem, state);
  if (few.empty()) return std::nullopt;
  if (few.size() == 1 || problem.hypotheses.size() * problem.tests.size() > largest_looked_into)
    return few[0].test;
  few.resize(std::min(few.size(), most_looked_at));
  std::size_t best = few[0].test;
  double least = std::numeric_limits<double>::infinity();
  for (const Candidate& one : few) {
    std::size_t nodes = most_nodes;
    const double minutes = minutes_left(problem, state, 1, nodes, one.test);
    if (nodes == 0) return few[0].test;
    if (minutes < least - nothing) {
      least = minutes;
      best = one.test;
    }
  }
  return best;
}

}
