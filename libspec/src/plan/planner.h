// The steps of a plan: what each outcome would mean, and where it leads.
#pragma once

#include "plan/evidence.h"
#include "plan/words.h"

namespace ohmlore {

/// Weights below this are none.
inline constexpr double gone = 1e-9;

struct Planner {
  const Resolved& resolved;
  const Situation& situation;
  const Plan_request& request;
  Plan plan = {};
  std::vector<std::size_t> asked = {};    ///< tests that an outcome asks for
  std::vector<Order_state> asked_in = {}; ///< and the state in which it does

  std::size_t hypotheses() const { return situation.failures.size(); }
  bool is_seen(std::size_t h) const {
    const auto& shows = situation.order.hypotheses[h].shows;
    return std::any_of(shows.begin(), shows.end(), [](const Showing_shares& s) { return s[0] < 1; });
  }
  /// An entry that no test sees, and that is not yet ruled out; a board or a supply is for the end.
  bool is_undecided(std::size_t entry, const Order_state& state) const;
  Plan_left left_of(std::size_t entry) const;
  std::size_t culprit_of(std::size_t h) const { return situation.order.hypotheses[h].culprit; }
  /// Of each culprit.
  std::vector<double> weights_by_culprit(const Order_state& state) const;
  /// The hypotheses of each culprit, the likeliest first.
  std::vector<std::vector<std::size_t>> hypotheses_by_culprit(const Order_state& state) const;
  std::vector<std::string> listed(const std::vector<bool>& is, const Order_state& by) const {
    return listed_failures(resolved, situation, is, by.weights);
  }

  /// A failure is gone where every path in which it may lie is.
  std::vector<bool> gone_between(const Order_state& before, const Order_state& after) const;

  Plan_outcome outcome(const Order_state& state, std::size_t test, std::vector<Showing> shown,
                       std::size_t depth);
  std::vector<Plan_outcome> outcomes(const Order_state& state, std::size_t test, std::size_t depth);
  void lay_out(Order_state state);
  void list_suspects(const Order_state& now, std::span<const Evidence> all);
};

}
