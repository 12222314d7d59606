#include "ohmlore/order.h"

#include <algorithm>
#include <limits>

namespace ohmlore {
namespace {

constexpr double nothing = 1e-9; // less than this is rounding
// Branches less probable than this are not looked into; a tree of that many measurements is enough to
// compare.
constexpr double too_rare = 2e-3;
constexpr std::size_t most_looked_at = 4; // candidates
// Nor further than this, so that no problem takes long: hypotheses times tests, and measurements of one tree.
constexpr std::size_t largest_looked_into = 2000, most_nodes = 300;

// The sum of squared shares of the culprits, times the whole: 1 - this is Gini's index where the whole is 1.
double concentration(const std::vector<double>& by_culprit, double whole) {
  double squares = 0;
  for (const double one : by_culprit) squares += one * one;
  return whole > 0 ? squares / whole : 0;
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
    if (is_worth_it(problem, state, test))
      all.push_back({test, separation_of(problem, state, test) / minutes_of(problem, state, test)});
  std::stable_sort(all.begin(), all.end(),
                   [](const Candidate& a, const Candidate& b) { return a.rate > b.rate + nothing; });
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
      if (!is_worth_it(problem, state, test)) continue;
      const double rate = separation_of(problem, state, test) / minutes_of(problem, state, test);
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
  std::vector<double> by_culprit(problem.culprits);
  const auto gather = [&](auto share) {
    std::fill(by_culprit.begin(), by_culprit.end(), 0.0);
    double whole = 0;
    for (std::size_t i = 0; i < problem.hypotheses.size(); ++i) {
      const double weight = state.weights[i] * share(problem.hypotheses[i].shows[test]);
      by_culprit[problem.hypotheses[i].culprit] += weight;
      whole += weight;
    }
    return concentration(by_culprit, whole);
  };
  double found = 0;
  for (std::size_t shown = 0; shown < showing_count; ++shown)
    found += gather([&](const Showing_shares& shares) { return shares[shown]; });
  return found - gather([](const Showing_shares&) { return 1.0; });
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
  return !state.taken[test] &&
         separation_of(problem, state, test) > (state.abnormal ? worth_after_abnormal : nothing);
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
