// What a reading's uncertainty is made of.
#pragma once

#include <vector>

#include "judge/case.h"

namespace ohmlore {

/// Largest share first.
std::vector<Contribution> budget_of(const Case& one);

/// Combined standard uncertainty in ohm: the root of the sum of squares (JCGM 100, 5.1.2).
double combined(const std::vector<Contribution>& budget);

}
