#include <set>

#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  std::set<Text> reached;
  bool any_fault = false;
  each_fault(subject, [&](Text, const Fault& fault) {
    any_fault = true;
    reached.insert(*fault.raised.component);
    for (const Suspect& suspect : fault.suspects) {
      reached.insert(*suspect.component);
      for (const Value<Text>& id : suspect.decided_by)
        if (const Test* test = subject.resolved.test(*id)) reached.insert(*test->component);
    }
  });
  if (!any_fault) return; // a profile of pin-outs and readings only
  for (const Resolved_component& component : subject.resolved.components)
    if (!reached.contains(component.id))
      sink.report(component.node,
                  fmt::format("no fault suspects {}: nobody is led to it from a code", component.id));
}

extern const Rule component_unreached = {
    .family = Family::fault,
    .severity = Severity::note,
    .summary = "No fault suspects a component.",
    .check = check,
};

}
