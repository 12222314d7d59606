// In which order to measure: suspects, tests and work as plain numbers, without a board.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "ohmlore/words.h"

namespace ohmlore {

// clang-format off
#define OHMLORE_SHOWINGS(word) \
  word(healthy, "Within its limits, and it answers as it should.") \
  word(over_range, "OL: no path.") \
  word(near_zero, "About 0 Ω.") \
  word(higher, "Above its limits.") \
  word(lower, "Below its limits.") \
  word(unsteady, "Jumps, or does not answer as it should.")
// clang-format on
OHMLORE_ENUM(Showing, OHMLORE_SHOWINGS)
inline constexpr std::size_t showing_count = 6;

/// How probable each showing is, by its place in the enumeration; they add up to 1.
using Showing_shares = std::array<double, showing_count>;

/// One failure that may be the cause, and what each test then shows.
struct Hypothesis {
  std::size_t culprit = 0;           ///< failures of one culprit need not be told apart
  double weight = 0;                 ///< how likely, before anything is measured; any scale
  std::vector<Showing_shares> shows; ///< by test: one for each
};

/// Work that serves every later test: a connector withdrawn, a cover taken off.
struct Chore {
  std::size_t what = 0; ///< chores are numbered from 0 on
  double minutes = 0;
};
struct Measurement_work {
  double minutes = 1; ///< with everything at hand
  std::vector<Chore> chores;
  std::vector<std::size_t> apart; ///< chores that must be undone first: put_back_minutes each
  std::vector<std::size_t> lost;  ///< chores that are undone by it
};
inline constexpr double put_back_minutes = 1;

struct Order_problem {
  std::vector<Hypothesis> hypotheses;
  std::vector<Measurement_work> tests;
  std::size_t culprits = 0, chores = 0;
};

/// What has been measured, and what is left: made by `beginning`, then by `after`.
struct Order_state {
  std::vector<double>
      weights;             ///< of the hypotheses, adding up to 1; all 0 where nothing explains the readings
  std::vector<bool> taken; ///< tests
  std::vector<bool> done;  ///< chores
  bool abnormal = false;   ///< a reading was not healthy
};
Order_state beginning(const Order_problem& problem);

/// What a test costs now: its own minutes, chores not yet done, and what must be put back.
double minutes_of(const Order_problem& problem, const Order_state& state, std::size_t test);
/// The probability of a showing.
double probability_of(const Order_problem& problem, const Order_state& state, std::size_t test,
                      Showing shown);
/// How much surer one is of the culprit after a test, on average: by how much the probability falls that two
/// guesses, each drawn by the weights, name different culprits (Gini's index of diversity).
double separation_of(const Order_problem& problem, const Order_state& state, std::size_t test);
/// The state after a test showed one of these (several: too close to say which).
Order_state after(const Order_problem& problem, const Order_state& state, std::size_t test,
                  const std::vector<Showing>& shown);

/// Before an abnormal reading any test that separates is worth its minutes, after it only what separates by
/// more than this.
inline constexpr double worth_after_abnormal = 0.1;
bool is_worth_it(const Order_problem& problem, const Order_state& state, std::size_t test);

/// The test to do next: that which separates most for a minute; among the best few that after which the rest
/// takes the fewest minutes, chosen likewise. Empty where none is worth it. The same input gives the same
/// answer.
std::optional<std::size_t> next_test(const Order_problem& problem, const Order_state& state);

}
