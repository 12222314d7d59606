#include <algorithm>

#include "lint/modes.h"
#include "lint/rule.h"
#include "model/names.h"

namespace ohmlore::rules {

// A reading can show these, but never their absence (see mode-undecidable): no `excludes` is expected.
static bool only_provable(Mode mode) {
  switch (mode) {
  case Mode::leakage_to_earth:
  case Mode::shorted_turns:
  case Mode::intermittent:
  case Mode::seized:
  case Mode::low_capacitance:
  case Mode::wet_or_corroded:
  case Mode::consumed: return true;
  default: return false;
  }
}

// One that its component cannot have is for mode-impossible.
static bool is_excludable(const Bound_suspect& suspect, Mode mode) {
  return !only_provable(mode) &&
         (suspect.component == nullptr || likelihood(*suspect.component, mode) != Likelihood::impossible);
}

// Whether a test surely excludes none of the modes of a suspect.
static bool excludes_none(const Test* test, const Suspect& suspect) {
  return test != nullptr && // else reported elsewhere
         std::none_of(test->excludes.begin(), test->excludes.end(),
                      [&](const Value<Mode>& mode) { return names(suspect.modes, *mode); });
}

static std::vector<std::string_view> deciding(const Bound_suspect& suspect) {
  std::vector<std::string_view> tests;
  for (const Value<Text>& id : suspect.own->decided_by) tests.push_back(*id);
  return tests;
}

static void report(const Bound_suspect& suspect, Sink& sink) {
  std::vector<std::string_view> modes;
  const auto tests = deciding(suspect);
  for (const Value<Mode>& mode : suspect.own->modes)
    if (mode) modes.push_back(word_of(*mode));
  sink.report(
      suspect.own->decided_by.node,
      fmt::format("{} {} none of the suspected modes ({}); say in `excludes` what a healthy reading rules "
                  "out, or name another test",
                  listed(tests), tests.size() == 1 ? "excludes" : "exclude", listed(modes)));
  sink.relate(suspect.tests.front()->node, "the test");
}

static bool is_off_earth(const Resolved& resolved, const Test* test) {
  return test != nullptr && test->probes.size() == 2 &&
         std::none_of(test->probes.begin(), test->probes.end(),
                      [&](const Value<Contact>& probe) { return !probe || is_earthed(resolved, probe); });
}

// No reading shows that nothing leaks, but only one to earth shows what does. Of several modes the tests may
// be meant for the others.
static void check_leakage(const Resolved& resolved, const Bound_suspect& suspect, Sink& sink) {
  const auto& modes = suspect.own->modes;
  if (modes.size() != 1 || !modes[0] || *modes[0] != Mode::leakage_to_earth ||
      !std::all_of(suspect.tests.begin(), suspect.tests.end(),
                   [&](const Test* test) { return is_off_earth(resolved, test); }))
    return;
  sink.report(
      suspect.own->decided_by.node,
      fmt::format("no lead of {} lies on earth, where leakage_to_earth would show; name a test to earth, or "
                  "say \"circuit\": \"protective_earth\" on its pin",
                  listed(deciding(suspect))));
  sink.relate(suspect.tests.front()->node, "the test");
}

static void check(const Subject& subject, Sink& sink) {
  each_suspect(subject, [&](const Bound_suspect& suspect) {
    const auto& modes = suspect.own->modes;
    const auto& tests = suspect.tests;
    if (!tests.empty()) check_leakage(subject.resolved, suspect, sink);
    if (!tests.empty() &&
        std::any_of(modes.begin(), modes.end(),
                    [&](const Value<Mode>& mode) { return mode && is_excludable(suspect, *mode); }) &&
        std::all_of(tests.begin(), tests.end(),
                    [&](const Test* test) { return excludes_none(test, *suspect.own); }))
      report(suspect, sink);
  });
}

extern const Rule mode_not_excluded = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "The tests named for a suspect exclude none of the modes that it is suspected of, or do not "
               "see them.",
    .check = check,
    .goes_by_absence = true,
};

}
