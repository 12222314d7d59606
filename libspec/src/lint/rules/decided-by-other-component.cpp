#include <algorithm>

#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {

// Both leads lie on the two ends of another part, and of the component one end is left that nothing else lies
// on, on the plug that is withdrawn: no current flows through it, unless to earth.
static bool is_passed_by(const Resolved& resolved, const Test& test, const Resolved_component& component) {
  const Resolved_component* tested = resolved.component_of(test);
  const auto has_two_ends = [&](const Resolved_component& part) {
    return part.contacts.size() == 2 && circuits_of(resolved, part).empty();
  };
  if (!test.unplug || tested == nullptr || !has_two_ends(*tested) || !has_two_ends(component) ||
      !on_own_contacts(test, *tested))
    return false;
  const auto earthed = [&](const Value<Contact>& contact) { return is_earthed(resolved, *contact); };
  if (std::any_of(test.probes.begin(), test.probes.end(), earthed)) return false;
  const auto contacts = component.contacts;
  return std::any_of(contacts.begin(), contacts.end(), [&](const Value<Contact>& end) {
    return end->connector == *test.unplug && *end != *test.probes[0] && *end != *test.probes[1] &&
           !earthed(end) && resolved.lying.at(*end).size() == 1;
  });
}

// What a test touches too little of to say something of a component; empty where it does say something, or is
// compared with it.
static std::string_view too_little(const Resolved& resolved, const Test& test,
                                   const Resolved_component& component) {
  const Resolved_component* tested = resolved.component_of(test);
  if (tested == &component || !test.component) return "";
  if (test.expect.with && *test.expect.with == component.id) return "";
  const Reach reached(resolved, component);
  if (reached.empty()) return ""; // nothing says where it lies
  const bool touched = std::any_of(test.probes.begin(), test.probes.end(), [&](const Value<Contact>& probe) {
    return !probe || reached.holds(*probe);
  });
  if (!touched) return "no contact";
  return is_passed_by(resolved, test, component) ? "only one end" : "";
}

static void check(const Subject& subject, Sink& sink) {
  each_suspect(subject, [&](const Bound_suspect& suspect) {
    const Resolved_component* component = suspect.component;
    if (component == nullptr) return;
    for (std::size_t i = 0; i < suspect.tests.size(); ++i) {
      const Test* test = suspect.tests[i];
      if (test == nullptr || !*test) continue;
      const std::string_view touched = too_little(subject.resolved, *test, *component);
      if (touched.empty()) continue;
      const Value<Text>& id = suspect.own->decided_by[i];
      sink.report(id.node, fmt::format("{} tests {} and touches {} of {}; name a test of {}", *id,
                                       *test->component, touched, component->id, component->id));
      sink.relate(test->node, "the test");
    }
  });
}

extern const Rule decided_by_other_component = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A suspect is to be decided by a test that does not touch it.",
    .check = check,
    .goes_by_absence = true,
};

}
