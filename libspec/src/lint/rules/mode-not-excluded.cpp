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

static void check(const Subject& subject, Sink& sink) {
  each_fault(subject, [&](Text, const Fault& fault) {
    for (const Suspect& suspect : fault.suspects) {
      std::vector<std::string_view> modes, tests;
      bool excluded = false, known = true, excludable = false;
      for (const Value<Mode>& mode : suspect.modes) {
        if (!mode) continue;
        modes.push_back(word_of(*mode));
        excludable = excludable || !only_provable(*mode);
      }
      for (const Value<Text>& id : suspect.decided_by) {
        const Test* test = id ? subject.resolved.test(*id) : nullptr;
        known = known && test != nullptr && *test &&
                stated(subject.document, *test, "excludes", test->excludes) == bool(test->excludes);
        if (!known) break; // reported elsewhere
        tests.push_back(*id);
        for (const Value<Mode>& mode : test->excludes)
          excluded =
              excluded || !mode || std::find(modes.begin(), modes.end(), word_of(*mode)) != modes.end();
      }
      if (!known || excluded || !excludable || tests.empty()) continue;
      sink.report(
          suspect.decided_by.node,
          fmt::format(
              "{} {} none of the suspected modes ({}); say in `excludes` what a healthy reading rules "
              "out, or name another test",
              listed(tests), tests.size() == 1 ? "excludes" : "exclude", listed(modes)));
      if (const Test* test = subject.resolved.test(tests.front())) sink.relate(test->node, "the test");
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
