#include "sheet/steps.h"

#include <algorithm>

#include "ohmlore/plan.h"
#include "plan/codes.h"

namespace ohmlore::sheet {
namespace {

std::vector<Step> as_listed(const Resolved& resolved, const Fault& fault) {
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

bool is_for_the_end(const Suspect& suspect) {
  return suspect.kind && (*suspect.kind == Suspect_kind::board || *suspect.kind == Suspect_kind::supply);
}

bool is_same(const Plan_suspect& planned, const Suspect& suspect) {
  const bool same = suspect.component   ? planned.id == *suspect.component
                    : suspect.connector ? planned.id == *suspect.connector
                                        : !suspect.cause || planned.name == *suspect.cause;
  return same && suspect.kind && planned.kind == *suspect.kind;
}

bool means(const Plan_left& left, const Plan& plan, const Suspect& suspect) {
  return is_same(plan.suspects[left.suspect], suspect) &&
         std::equal(left.modes.begin(), left.modes.end(), suspect.modes.begin(), suspect.modes.end(),
                    [](Mode a, const Value<Mode>& b) { return b && a == *b; });
}

// The profile names no test for it, and this one rules it out: the wires that a chain is read through.
bool is_ruled_out_by(const Plan_step& step, const Plan& plan, const Suspect& suspect) {
  const auto& cleared = step.outcomes[0].clears; // where it reads healthy
  return std::any_of(cleared.begin(), cleared.end(),
                     [&](std::size_t one) { return is_same(plan.suspects[one], suspect); });
}

}

Steps steps_of(const Resolved& resolved, const Keyed<Fault>::Entry& fault) {
  std::vector<Step> rest = as_listed(resolved, fault.value);
  const Plan plan = plan_faults(resolved, {{{fault.id, &fault.value}}, {}, {}}, {}, {});
  if (!plan.problems.empty()) return {std::move(rest), false};

  Steps steps{{}, true};
  const auto take = [&](bool after_abnormal, const auto& is_meant) {
    for (auto step = rest.begin(); step != rest.end();) {
      if (!is_meant(*step)) {
        ++step;
        continue;
      }
      step->after_abnormal = after_abnormal;
      steps.list.push_back(std::move(*step));
      step = rest.erase(step);
    }
  };
  const auto is_test = [](const std::string& id) {
    return [&id](const Step& step) { return step.test != nullptr && step.test->id == id; };
  };
  for (const Plan_step& planned : plan.steps) {
    for (const Plan_left& left : planned.look_first)
      take(false,
           [&](const Step& step) { return step.test == nullptr && means(left, plan, *step.suspects[0]); });
    take(false, is_test(planned.test));
    std::erase_if(rest, [&](const Step& step) {
      const bool here = step.test == nullptr && !step.suspects[0]->not_decidable && !steps.list.empty() &&
                        is_ruled_out_by(planned, plan, *step.suspects[0]);
      if (here) steps.list.back().suspects.push_back(step.suspects[0]);
      return here;
    });
  }
  for (const Plan_step& planned : plan.more) take(true, is_test(planned.test));
  const bool any_before = !steps.list.empty();
  take(any_before, [](const Step& step) { return step.test != nullptr; });
  take(false, [](const Step& step) { return !is_for_the_end(*step.suspects[0]); });
  take(false, [](const Step&) { return true; });
  return steps;
}

}
