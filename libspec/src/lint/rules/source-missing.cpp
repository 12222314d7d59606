#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

bool has_numbers(const Expectation& e) {
  return e.nominal || e.min || e.max || e.above || e.below || e.reverse_min || e.reverse_max ||
         e.largest_difference;
}

void check(const Subject& subject, Sink& sink) {
  if (subject.resolved.has_source(Document::root)) return;
  const auto need = [&](Node_id node, std::string_view what, Text of) {
    if (!subject.resolved.has_source(node))
      sink.report(node,
                  fmt::format("{} of {} has no source: say in `source` where the numbers come from, here, in "
                              "a record around it, or once for the whole document",
                              what, of));
  };
  for (const Resolved_component& component : subject.resolved.components) {
    const Component_type& own = *component.own;
    if (own.model) need(own.model.node, "the model", component.id);
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

extern const Rule source_missing = {
    .family = Family::source,
    .severity = Severity::warning,
    .summary = "Numbers or a pin-out have no source.",
    .check = check,
};

}
