// The tests of a fault in order.
#pragma once

#include <vector>

#include "ohmlore/resolve.h"

namespace ohmlore::sheet {

/// One test and the suspects that it decides; or a suspect that no test decides.
struct Step {
  const Keyed<Test>::Entry* test = nullptr;
  std::vector<const Suspect*> suspects;
};

/// The order in which a sheet lists the tests of a fault: that of the profile. This is the one place that
/// orders them.
std::vector<Step> steps_of(const Resolved& resolved, const Fault& fault);

}
