#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {

static std::string shown(const Keyed<Value<Contact>>& terminals) { return listed(ids_of(terminals)); }

static void check_own(const Component& component, Text id, const Value<Text>& name, Severity severity,
                      Sink& sink) {
  if (!name || component.terminals.find(*name) != nullptr) return;
  sink.report_as(severity, name.node,
                 fmt::format("{} has no terminal {}, only {}{}", id, *name, shown(component.terminals),
                             hint(*name, ids_of(component.terminals))));
  sink.relate(component.terminals.node, fmt::format("the terminals of {}", id));
}

// The pairs of a part may name terminals that this appliance does not use; but not none of those it has.
static void check_part(const Resolved_component& component, Sink& sink) {
  const auto model = component.get(&Component_type::model);
  if (!model || model.document == component.document || model->pairs.empty()) return;
  std::vector<std::string_view> names;
  for (const Terminal_pair& pair : model->pairs)
    for (const Value<Text>& name : {pair.from, pair.to}) {
      if (!name || component.placed->terminals.find(*name) != nullptr) return;
      names.push_back(*name);
    }
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  sink.report_as(
      Severity::warning, component.placed->terminals.node,
      fmt::format("the part of {} names the terminals {}, here they are {}; name them as the part does",
                  component.id, listed(names), shown(component.placed->terminals)));
  sink.relate(*model.document, model->pairs.node, "the pairs of the part");
}

static void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    if (component.placed == nullptr || component.placed->terminals.empty()) continue;
    for (const Terminal_pair& pair : component.own->model->pairs)
      for (const Value<Text>& name : {pair.from, pair.to})
        check_own(*component.placed, component.id, name, Severity::error, sink);
    // A protector in the star point sits at a joint that has no terminal.
    check_own(*component.placed, component.id, component.own->protector->position, Severity::warning, sink);
    check_part(component, sink);
  }
}

extern const Rule terminal_unknown = {
    .family = Family::pin,
    .severity = Severity::error,
    .summary = "A pair of resistances or a protector names a terminal that the component lacks.",
    .check = check,
};

}
