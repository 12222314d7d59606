#include "sheet/steps.h"

#include <algorithm>

namespace ohmlore::sheet {

std::vector<Step> steps_of(const Resolved& resolved, const Fault& fault) {
  std::vector<Step> steps;
  const Keyed<Test>& tests = resolved.document->profile()->tests;
  for (const Suspect& suspect : fault.suspects) {
    bool decided = false;
    for (const Value<Text>& id : suspect.decided_by) {
      const auto* test = id ? tests.find(*id) : nullptr;
      if (test == nullptr) continue;
      decided = true;
      const auto known =
          std::find_if(steps.begin(), steps.end(), [&](const Step& step) { return step.test == test; });
      if (known == steps.end())
        steps.push_back({test, {&suspect}});
      else if (known->suspects.back() != &suspect)
        known->suspects.push_back(&suspect);
    }
    if (!decided) steps.push_back({nullptr, {&suspect}});
  }
  return steps;
}

}
