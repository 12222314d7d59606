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
  const auto earthed = [&](const Value<Contact>& contact) { return is_earthed(resolved, contact); };
  if (std::any_of(test.probes.begin(), test.probes.end(), earthed)) return false;
  const auto contacts = component.contacts;
  return std::any_of(contacts.begin(), contacts.end(), [&](const Value<Contact>& end) {
    return end->connector == *test.unplug && *end != *test.probes[0] && *end != *test.probes[1] &&
           !earthed(end) && resolved.lying_on(end).size() == 1;
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

// The part that a test is of is not in the appliance with the suspect, or with the code: what the test
// expects is another part's. The wires alone are the same. Whether that was said.
static bool is_of_other_appliance(Sink& sink, const Resolved& resolved, const Bound_suspect& suspect,
                                  const Test& test, const Value<Text>& id) {
  const Resolved_component* tested = resolved.component_of(test);
  if (tested == nullptr || tested == suspect.component || !test.side || *test.side == Side::harness)
    return false;
  const Applies_when& theirs = tested->placed->when;
  const auto apart_from = [&](const Applies_when& when, Text name, Text suspected) {
    if (!never_together(theirs, when)) return false;
    sink.report(
        id.node,
        fmt::format("{} tests {}, which is there for other {} than {}; name {}, or correct one `when`", *id,
                    tested->id, models_apart(theirs, when) ? "models" : "software versions", name,
                    suspected.empty() ? "another test" : fmt::format("a test of {}", suspected)));
    sink.relate(theirs.node, fmt::format("which have {}", tested->id));
    sink.relate(when.node, fmt::format("which have {}", name));
    return true;
  };
  const Resolved_component* component = suspect.component;
  return (component != nullptr && apart_from(component->placed->when, component->id, component->id)) ||
         apart_from(suspect.fault->value.when, suspect.fault->id, {});
}

// Of a plug of the board: neither the leads nor the part that is tested come to it, nor what the board joins
// with either.
static bool is_away_from(const Resolved& resolved, const Test& test, Text connector) {
  const Resolved_component* tested = resolved.component_of(test);
  const Connector* plug = resolved.connector(connector);
  if (tested == nullptr || plug == nullptr || (plug->mounted && *plug->mounted != Mounting::board) ||
      (test.unplug && *test.unplug == connector) || test.expect.with || test.disconnect_also)
    return false;
  const auto on_plug = [&](const Contact& contact) { return contact.connector == connector; };
  const auto reached = Reach(resolved, *tested).contacts();
  return !reached.empty() && std::none_of(reached.begin(), reached.end(), on_plug) &&
         std::none_of(test.probes.begin(), test.probes.end(), [&](const Value<Contact>& probe) {
           const auto* set = probe ? joined_set(resolved, *probe) : nullptr;
           return !probe || on_plug(*probe) ||
                  (set != nullptr && std::any_of(set->begin(), set->end(), on_plug));
         });
}

static void check(const Subject& subject, Sink& sink) {
  each_suspect(subject, [&](const Bound_suspect& suspect) {
    const Resolved_component* component = suspect.component;
    for (std::size_t i = 0; i < suspect.tests.size(); ++i) {
      const Test* test = suspect.tests[i];
      if (test == nullptr || !*test) continue;
      if (is_of_other_appliance(sink, subject.resolved, suspect, *test, suspect.own->decided_by[i])) continue;
      const auto report = [&](std::string_view touched, Text of, std::string_view remedy) {
        const Value<Text>& id = suspect.own->decided_by[i];
        sink.report(id.node, fmt::format("{} tests {} and touches {} of {}; name a test {} {}", *id,
                                         *test->component, touched, of, remedy, of));
        sink.relate(test->node, "the test");
      };
      const Value<Text>& connector = suspect.own->connector;
      if (connector && is_away_from(subject.resolved, *test, *connector))
        report("no contact", *connector, "at");
      if (component == nullptr) continue;
      const std::string_view touched = too_little(subject.resolved, *test, *component);
      if (!touched.empty()) report(touched, component->id, "of");
    }
  });
}

extern const Rule decided_by_other_component = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary =
        "A suspect is to be decided by a test that does not touch it, or is of a part of other models.",
    .check = check,
    .goes_by_absence = true,
};

}
