// What must say where it comes from.
#pragma once

#include "lint/rule.h"

namespace ohmlore::rules {

inline bool has_numbers(const Expectation& e) {
  return e.nominal || e.min || e.max || e.above || e.below || e.reverse_min || e.reverse_max ||
         e.largest_difference;
}

/// Calls `f(node, what)` for each record of the document with numbers or a pin-out that needs a source;
/// `what` is said of it, "the model of tank_sensor".
template <class F>
void each_sourced(const Subject& subject, F f) {
  const auto need = [&](Node_id node, std::string_view what, Text of) {
    f(node, fmt::format("{} of {}", what, of));
  };
  for (const Resolved_component& component : subject.resolved.components) {
    const Component_type& own = *component.own;
    if (own.model) need(own.model->node, "the model", component.id);
    if (own.service_limit) need(own.service_limit.node, "the service limit", component.id);
  }
  each_test(subject, [&](Text id, const Test& test) {
    if (has_numbers(test.expect)) need(test.expect.node, "the expected reading", id);
  });
  each_fault(subject, [&](Text id, const Fault& fault) {
    if (fault.raised.below || fault.raised.above) need(fault.raised.node, "the threshold", id);
  });
  if (const Profile* profile = subject.profile())
    for (const auto& connector : profile->connectors)
      if (!connector.value.pins.empty()) need(connector.value.node, "the pin-out", connector.id);
}

}
