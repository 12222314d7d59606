// What to do by hand where no test helps further.
#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "plan/planner.h"

namespace ohmlore {

/// Where the wires are what is left.
inline constexpr std::string_view look_along_the_harness =
    "look along the harness for chafing, crushed pins and damp, and mend it as the maker allows";

/// Where an abnormal reading (`shown`, of `test`; `at_most` so many ohm, where it was read) leaves the
/// suspects of `state`, and no test of the codes tells them apart.
std::vector<std::string> advice(const Planner& planner, const Order_state& state, std::size_t test,
                                const std::vector<Showing>& shown, double at_most = INFINITY);

/// Of that only what may have deceived whoever read, and what is to be minded at once: also where a test is
/// left.
std::vector<std::string> what_may_deceive(const Planner& planner, const Order_state& state, std::size_t test,
                                          const std::vector<Showing>& shown, double at_most);

}
