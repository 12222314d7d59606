// What may be wrong and what each test shows then: the faults of one job as a problem of ordering.
#pragma once

#include <string>
#include <vector>

#include "ohmlore/plan.h"
#include "ohmlore/separation.h"

namespace ohmlore {

/// A suspect of some faults; entries that name the same thing are one.
struct Culprit {
  Suspect_kind kind = Suspect_kind::component;
  Text id; ///< component, connector, or the words of a cause
  std::vector<const Suspect*> entries;
  std::vector<Text> codes;
  double weight = 0;
};

/// What lies behind one hypothesis of the problem.
struct Failure {
  std::optional<Mode> mode;
  std::size_t entry = 0;   ///< of `storage`: the first that suspects it
  std::vector<Cell> cells; ///< by test; none of what the profile does not name
};

/// A chore in words.
struct Chore_words {
  enum Kind : std::uint8_t { withdraw, disconnect, before, reach } kind = withdraw;
  std::string what;
};

struct Situation {
  Order_problem order;
  std::vector<Failure> failures; ///< of the hypotheses; the last one is none that the profile names
  std::vector<Culprit> culprits; ///< likeliest first; the last one likewise
  std::vector<Named_test> tests;
  std::vector<Chore_words> chores;
  std::vector<Suspect> storage;        ///< suspects of all faults
  std::vector<std::size_t> culprit_of; ///< by entry of `storage`
  std::vector<double> weight_of;       ///< likewise

  std::size_t nobody() const { return culprits.size() - 1; }
};

struct Planned_fault {
  Text id;
  const Fault* fault = nullptr; ///< never null
};

/// Suspects and tests that cannot be on `model` are left out where one is given.
Situation situation_of(const Resolved& resolved, const std::vector<Planned_fault>& faults,
                       const std::optional<std::string>& model);

/// The places of the weights, the greatest first; of equals the one that is named first.
std::vector<std::size_t> likeliest_first(const std::vector<double>& weights);

/// What tests cost, and what each needs first (plan/work.cpp).
void add_work(Situation& situation);

}
