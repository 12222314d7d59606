#include <vector>

#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const auto& components = subject.resolved.components;
  std::vector<bool> reached(components.size());
  const auto reach = [&](const Resolved_component* component) {
    if (component != nullptr) reached[subject.resolved.position_of(*component)] = true;
  };
  bool any_fault = false;
  each_fault(subject, [&](Text, const Fault& fault) {
    any_fault = true;
    if (fault.raised.component) reach(subject.resolved.component(*fault.raised.component));
  });
  each_suspect(subject, [&](const Bound_suspect& suspect) {
    reach(suspect.component);
    for (const Test* test : suspect.tests)
      if (test != nullptr) reach(subject.resolved.component_of(*test));
  });
  if (!any_fault) return; // a profile of pin-outs and readings only
  for (const Resolved_component& component : components)
    if (!reached[subject.resolved.position_of(component)])
      sink.report(component.node, fmt::format("no fault suspects {}: nobody is led to it from a code; name "
                                              "it in `suspects` of one that it can cause",
                                              component.id));
}

extern const Rule component_unreached = {
    .family = Family::fault,
    .severity = Severity::note,
    .summary = "No fault suspects a component.",
    .check = check,
    .goes_by_absence = true,
};

}
