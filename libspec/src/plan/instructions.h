// What to do for one test, as a person does it.
#pragma once

#include "plan/situation.h"

namespace ohmlore {

/// What a healthy part reads in a test, in numbers and words: at one temperature, or without one at several.
void add_limits(Plan_step& step, const Resolved& resolved, const Test& test,
                const std::optional<Part_temperature>& temperature);

/// What is doubtful of these limits.
std::vector<std::string> doubts_of(const Resolved& resolved, const Test& test,
                                   const std::optional<Part_temperature>& temperature);

/// A step without its outcomes. `state` is that before it.
Plan_step instructions(const Resolved& resolved, const Situation& situation, const Order_state& state,
                       std::size_t test, const std::optional<Part_temperature>& temperature);

}
