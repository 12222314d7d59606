// The tests of a fault in order.
#pragma once

#include <vector>

#include "ohmlore/resolve.h"

namespace ohmlore::sheet {

/// One test and the suspects that it decides; or a suspect that no test decides.
struct Step {
  const Keyed<Test>::Entry* test = nullptr;
  std::vector<const Suspect*> suspects;
  bool after_abnormal = false; ///< while everything reads healthy it rules nothing out that is left
};

struct Steps {
  std::vector<Step> list;
  bool planned = false; ///< else in the order of the profile: there are too many for a plan
};

/// The tests of a fault as a plan takes them, and each suspect that no test decides in its place. What is
/// wrong with the board or its supply comes last.
Steps steps_of(const Resolved& resolved, const Keyed<Fault>::Entry& fault);

}
