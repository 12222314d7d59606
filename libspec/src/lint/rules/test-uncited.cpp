#include <algorithm>
#include <set>

#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  std::set<Text> cited;
  bool any_fault = false;
  each_fault(subject, [&](Text, const Fault& fault) {
    any_fault = true;
    for (const Suspect& suspect : fault.suspects)
      for (const Value<Text>& test : suspect.decided_by) cited.insert(*test);
  });
  if (!any_fault) return; // a profile of pin-outs and readings only
  // A name that no test has may be meant for the one that nobody cites.
  if (std::any_of(cited.begin(), cited.end(), [&](Text id) { return subject.resolved.test(id) == nullptr; }))
    return;
  each_test(subject, [&](Text id, const Test& test) {
    if (!cited.contains(id))
      sink.report(test.node,
                  fmt::format("no fault names {} in `decided_by`: nobody is led to this test", id));
  });
}

extern const Rule test_uncited = {
    .family = Family::fault,
    .severity = Severity::note,
    .summary = "No fault names a test.",
    .check = check,
};

}
