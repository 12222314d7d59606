#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {

// A reading can show these, but never their absence (see mode-undecidable): no `excludes` is expected.
static bool only_provable(Mode mode) {
  switch (mode) {
  case Mode::leakage_to_earth:
  case Mode::shorted_turns:
  case Mode::intermittent:
  case Mode::seized:
  case Mode::low_capacitance:
  case Mode::wet_or_corroded: return true;
  default: return false;
  }
}

static bool holds(const List<Value<Mode>>& modes, Mode mode) {
  return std::any_of(modes.begin(), modes.end(), [&](const Value<Mode>& one) { return one && *one == mode; });
}

// Whether a test surely excludes none of the modes of a suspect.
static bool excludes_none(const Subject& subject, const Test* test, const Suspect& suspect) {
  return test != nullptr && *test && // else reported elsewhere
         stated(subject.document, *test, "excludes", test->excludes) == bool(test->excludes) &&
         std::none_of(test->excludes.begin(), test->excludes.end(),
                      [&](const Value<Mode>& mode) { return !mode || holds(suspect.modes, *mode); });
}

static void report(const Subject& subject, const Suspect& suspect, Sink& sink) {
  std::vector<std::string_view> modes, tests;
  for (const Value<Mode>& mode : suspect.modes)
    if (mode) modes.push_back(word_of(*mode));
  for (const Value<Text>& id : suspect.decided_by) tests.push_back(*id);
  sink.report(
      suspect.decided_by.node,
      fmt::format("{} {} none of the suspected modes ({}); say in `excludes` what a healthy reading rules "
                  "out, or name another test",
                  listed(tests), tests.size() == 1 ? "excludes" : "exclude", listed(modes)));
  sink.relate(subject.resolved.test(tests.front())->node, "the test");
}

static void check(const Subject& subject, Sink& sink) {
  each_fault(subject, [&](Text, const Fault& fault) {
    for (const Suspect& suspect : fault.suspects) {
      const auto& modes = suspect.modes;
      const auto& tests = suspect.decided_by;
      const bool excludable = std::any_of(
          modes.begin(), modes.end(), [](const Value<Mode>& mode) { return mode && !only_provable(*mode); });
      if (!excludable || tests.empty()) continue;
      if (std::all_of(tests.begin(), tests.end(), [&](const Value<Text>& id) {
            return excludes_none(subject, id ? subject.resolved.test(*id) : nullptr, suspect);
          }))
        report(subject, suspect, sink);
    }
  });
}

extern const Rule mode_not_excluded = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "The tests named for a suspect exclude none of the modes that it is suspected of.",
    .check = check,
};

}
