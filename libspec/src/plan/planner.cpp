#include "plan/planner.h"

#include <algorithm>
#include <map>
#include <utility>

#include "lint/rule.h"
#include "plan/advice.h"
#include "plan/evidence.h"
#include "plan/instructions.h"
#include "plan/likelier.h"
#include "plan/words.h"

namespace ohmlore {
namespace {

// An outcome that is less probable than this is not spoken of, nor followed deeper.
constexpr double too_rare = 0.002;
constexpr std::size_t deepest = 3; // tests after an abnormal reading; then one plans again with the readings

}

std::vector<double> Planner::weights_by_culprit(const Order_state& state) const {
  std::vector<double> sums(situation.culprits.size());
  for (std::size_t h = 0; h < hypotheses(); ++h) sums[culprit_of(h)] += state.weights[h];
  return sums;
}

std::vector<std::vector<std::size_t>> Planner::hypotheses_by_culprit(const Order_state& state) const {
  std::vector<std::vector<std::size_t>> all(situation.culprits.size());
  for (const std::size_t h : likeliest_first(state.weights)) all[culprit_of(h)].push_back(h);
  return all;
}

bool Planner::is_undecided(std::size_t entry, const Order_state& state) const {
  const Suspect_kind kind = *situation.storage[entry].kind;
  if (kind == Suspect_kind::board || kind == Suspect_kind::supply) return false;
  bool alive = false;
  for (std::size_t h = 0; h < hypotheses(); ++h) {
    if (situation.failures[h].entry != entry) continue;
    if (is_seen(h) && !situation.storage[entry].not_decidable) return false;
    alive = alive || state.weights[h] > gone;
  }
  return alive;
}

Plan_left Planner::left_of(std::size_t entry) const {
  const Suspect& suspect = situation.storage[entry];
  Plan_left left{situation.culprit_of[entry], {}, {}};
  for (const Value<Mode>& mode : suspect.modes)
    if (mode) left.modes.push_back(*mode);
  if (suspect.not_decidable) left.why = std::string(*suspect.not_decidable);
  return left;
}

std::vector<bool> Planner::gone_between(const Order_state& before, const Order_state& after) const {
  struct Paths {
    bool was = false, left = false;
  };
  std::map<std::pair<std::size_t, std::optional<Mode>>, Paths> of_failure;
  std::vector<Paths*> of(hypotheses());
  for (std::size_t h = 0; h < hypotheses(); ++h) {
    Paths& paths = *(of[h] = &of_failure[{culprit_of(h), situation.failures[h].mode}]);
    paths.was = paths.was || before.weights[h] > gone;
    paths.left = paths.left || after.weights[h] > gone;
  }
  std::vector<bool> is(hypotheses());
  for (std::size_t h = 0; h < hypotheses(); ++h) is[h] = of[h]->was && !of[h]->left;
  return is;
}

Plan_outcome Planner::outcome(const Order_state& state, std::size_t test, std::vector<Showing> shown,
                              std::size_t depth) {
  Plan_outcome out;
  const bool healthy = shown == std::vector<Showing>{Showing::healthy};
  for (const Showing one : shown) out.probability += probability_of(situation.order, state, test, one);
  const Order_state next = after(situation.order, state, test, shown);
  // Of what the test does not see an abnormal reading excludes nothing, though it explains it as little.
  std::vector<bool> excluded = gone_between(state, next);
  for (std::size_t h = 0; h < hypotheses(); ++h)
    excluded[h] = excluded[h] && is_said_to_exclude(situation, test, h) &&
                  situation.order.hypotheses[h].shows[test][0] < 1;
  out.rules_out = listed(excluded, state);
  std::vector<bool> any_excluded(situation.culprits.size());
  for (std::size_t h = 0; h < hypotheses(); ++h)
    if (excluded[h]) any_excluded[culprit_of(h)] = true;
  const std::vector<double> left = weights_by_culprit(next);
  for (std::size_t c = 0; c < situation.nobody(); ++c)
    if (any_excluded[c] && left[c] <= gone) out.clears.push_back(c);
  std::vector<bool> points(hypotheses()), hides(hypotheses());
  for (std::size_t h = 0; h < hypotheses(); ++h) {
    const double passes = situation.order.hypotheses[h].shows[test][0];
    points[h] = next.abnormal && next.weights[h] > gone;
    hides[h] = healthy && state.weights[h] > gone && next.weights[h] > gone && passes < 1;
  }
  out.points_to = listed(points, next);
  out.not_seen = listed(hides, next);
  if (const auto follow = next_test(situation.order, next)) {
    out.next = std::string(situation.tests[*follow].id);
    if (next.abnormal) {
      asked.push_back(*follow);
      asked_in.push_back(next);
      if (depth < deepest) out.outcomes = outcomes(next, *follow, depth + 1);
    }
  } else if (next.abnormal) {
    out.then = advice(*this, next, test, shown);
  }
  out.words = shown_words(shown, *situation.tests[test].test);
  out.shown = std::move(shown);
  return out;
}

std::vector<Plan_outcome> Planner::outcomes(const Order_state& state, std::size_t test, std::size_t depth) {
  std::vector<Plan_outcome> all;
  for (std::size_t i = 0; i < showing_count; ++i) {
    const auto shown = static_cast<Showing>(i);
    if (probability_of(situation.order, state, test, shown) < too_rare && shown != Showing::healthy) continue;
    if (probability_of(situation.order, state, test, shown) <= gone) continue;
    Plan_outcome one = outcome(state, test, {shown}, depth);
    // Readings that say the same are one outcome.
    const auto alike = std::find_if(all.begin(), all.end(), [&](const Plan_outcome& other) {
      return other.shown[0] != Showing::healthy && shown != Showing::healthy &&
             other.points_to == one.points_to && other.next == one.next;
    });
    if (alike == all.end()) {
      all.push_back(std::move(one));
    } else {
      std::vector<Showing> both = alike->shown;
      both.push_back(shown);
      *alike = outcome(state, test, std::move(both), depth);
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const Plan_outcome& a, const Plan_outcome& b) {
    const bool first = a.shown[0] == Showing::healthy, second = b.shown[0] == Showing::healthy;
    if (first != second) return first;
    return !first && is_likelier(a.probability, b.probability);
  });
  return all;
}

// The line of steps as long as everything reads healthy, and what the other outcomes ask for.
void Planner::lay_out(Order_state state) {
  std::vector<bool> placed(situation.storage.size()), in_line(situation.tests.size());
  while (const auto test = next_test(situation.order, state)) {
    Plan_step step = instructions(resolved, situation, state, *test, request.temperature);
    double likeliest = 0; // entry of which it sees something
    for (std::size_t h = 0; h < hypotheses(); ++h) {
      const std::size_t entry = situation.failures[h].entry;
      if (state.weights[h] <= gone || situation.order.hypotheses[h].shows[*test][0] >= 1) continue;
      step.looked_at += state.weights[h];
      likeliest = std::max(likeliest, situation.weight_of[entry]);
    }
    for (std::size_t entry = 0; entry < placed.size(); ++entry) {
      if (placed[entry] || situation.weight_of[entry] <= likeliest + gone || !is_undecided(entry, state))
        continue;
      placed[entry] = true;
      step.look_first.push_back(left_of(entry));
    }
    step.outcomes = outcomes(state, *test, 0);
    plan.steps.push_back(std::move(step));
    in_line[*test] = true;
    state = after(situation.order, state, *test, {Showing::healthy});
  }
  for (std::size_t i = 0; i < asked.size(); ++i) {
    if (in_line[asked[i]]) continue;
    in_line[asked[i]] = true;
    plan.more.push_back(instructions(resolved, situation, asked_in[i], asked[i], request.temperature));
  }
  const std::vector<double> weights = weights_by_culprit(state);
  const auto hypotheses_of = hypotheses_by_culprit(state);
  for (std::size_t c = 0; c < situation.nobody(); ++c) {
    Plan_left left{c, {}, {}};
    const auto& own = hypotheses_of[c];
    const bool tests_decide_some = std::any_of(own.begin(), own.end(), [&](std::size_t h) {
      return state.weights[h] > gone && !situation.storage[situation.failures[h].entry].not_decidable;
    });
    for (const std::size_t h : own) {
      if (state.weights[h] <= gone) continue;
      const auto& mode = situation.failures[h].mode;
      if (mode && std::find(left.modes.begin(), left.modes.end(), *mode) == left.modes.end())
        left.modes.push_back(*mode);
      const Suspect& entry = situation.storage[situation.failures[h].entry];
      if (entry.not_decidable && left.why.find(*entry.not_decidable) == std::string::npos)
        left.why += fmt::format("{}{}", left.why.empty() ? "" : "; ",
                                tests_decide_some ? why_of_modes(entry) : std::string(*entry.not_decidable));
    }
    if (weights[c] > gone) plan.left.push_back(std::move(left));
  }
  std::stable_sort(plan.left.begin(), plan.left.end(), [&](const Plan_left& a, const Plan_left& b) {
    return is_likelier(weights[a.suspect], weights[b.suspect]);
  });
}

}
