// What a reading fits that its own limits do not explain.
#pragma once

#include <vector>

#include "judge/case.h"

namespace ohmlore {

/// What lies on this connector and would read so, likeliest first: by its own test, or between two of its
/// contacts. Only what the reading fits better than the test's own part.
std::vector<Other_fit> others_of(const Case& one, double own_probability);

}
