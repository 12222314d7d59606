// Readings between the terminals of one component, as a network.
#pragma once

#include <string>
#include <vector>

#include "lint/rule.h"

namespace ohmlore::rules {

/// One stated resistance between two terminals, rounding of what is written allowed for.
struct Reading {
  std::string from, to; ///< names of terminals, or contacts where the terminal has no name
  Interval ohm;
  Node_id node = 0;
  const Test* test = nullptr; ///< null where the model's `pairs` state it
};

/// The readings of a component that belong together: first those of its own model's pairs, then those of its
/// tests, one group for each temperature and condition.
std::vector<std::vector<Reading>> reading_groups(const Subject& subject, const Resolved_component& component);

/// The readings between two terminals, or null.
const Reading* reading_between(const std::vector<Reading>& readings, std::string_view from,
                               std::string_view to);

/// Every terminal that a reading names, once.
std::vector<std::string> terminals_of(const std::vector<Reading>& readings);

}
