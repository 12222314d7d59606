#include <algorithm>
#include <vector>

#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  std::vector<bool> cited(profile->tests.size());
  bool any_fault = false, dangling = false;
  each_fault(subject, [&](Text, const Fault&) { any_fault = true; });
  each_suspect(subject, [&](const Bound_suspect& suspect) {
    for (const Test* test : suspect.tests)
      if (test != nullptr)
        cited[profile->tests.position_of(*test)] = true;
      else
        dangling = true;
  });
  if (!any_fault) return; // a profile of pin-outs and readings only
  if (dangling) return;   // a name that no test has may be meant for the one that nobody cites
  each_test(subject, [&](Text id, const Test& test) {
    if (!cited[profile->tests.position_of(test)])
      sink.report(test.node, fmt::format("no fault names {} in `decided_by`: nobody is led to this test; "
                                         "name it there, of a suspect that it decides",
                                         id));
  });
  constexpr std::size_t many = 3; // where none is named, it is one mistake
  if (profile->tests.size() >= many && std::find(cited.begin(), cited.end(), true) == cited.end())
    sink.tell_as_one(profile->tests.size(),
                     fmt::format("no fault names {}, nor any other of the {} tests, in `decided_by`: nobody "
                                 "is led from a code to a test",
                                 profile->tests.begin()->id, profile->tests.size()));
}

extern const Rule test_uncited = {
    .family = Family::fault,
    .severity = Severity::note,
    .summary = "No fault names a test.",
    .check = check,
    .goes_by_absence = true,
};

}
