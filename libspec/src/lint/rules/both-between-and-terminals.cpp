#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    if (component.placed == nullptr || !component.placed->between || !component.placed->terminals) continue;
    const auto& terminals = component.placed->terminals;
    const auto is_terminal = [&](const Value<Contact>& end) {
      return !end || std::any_of(terminals.begin(), terminals.end(),
                                 [&](const auto& t) { return t.value && *t.value == *end; });
    };
    const auto& between = component.placed->between;
    const auto stray = std::find_if_not(between.begin(), between.end(), is_terminal);
    if (stray == between.end())
      sink.report_as(
          Severity::note, between.node,
          fmt::format("`between` repeats two of the `terminals` of {}; leave it out", component.id));
    else
      sink.report(between.node,
                  fmt::format("{} names its contacts twice, and {} of `between` is none of its `terminals`; "
                              "keep the one that is right",
                              component.id, text_of(**stray)));
    sink.relate(terminals.node, "its terminals");
  }
}

extern const Rule both_between_and_terminals = {
    .family = Family::pin,
    .severity = Severity::warning,
    .summary = "A component names its contacts both as `between` and as `terminals`.",
    .check = check,
};

}
