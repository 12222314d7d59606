#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {

static std::string shown(const Keyed<Value<Contact>>& terminals) { return listed(ids_of(terminals)); }

static bool is_known(const Component& component, const Value<Text>& name) {
  return !name || component.terminals.find(*name) != nullptr;
}

static void report(const Component& component, Text id, const Value<Text>& name, Severity severity,
                   Sink& sink) {
  sink.report_as(severity, name.node,
                 fmt::format("{} has no terminal {}, only {}{}", id, *name, shown(component.terminals),
                             hint(*name, ids_of(component.terminals))));
  sink.relate(component.terminals.node, fmt::format("the terminals of {}", id));
}

// A terminal that no contact of the board leads to has pairs as well: the start of a motor that carries its
// run capacitor. What is near to a terminal without a pair is that one, misspelt.
static bool is_misspelt(const Component& component, const Value<Text>& name) {
  const std::string_view near = nearest_word(*name, ids_of(component.terminals));
  const auto& pairs = component.model->pairs;
  const auto may_be_near = [near](const Value<Text>& end) { return !end || *end == near; };
  return !near.empty() && std::none_of(pairs.begin(), pairs.end(), [&](const Terminal_pair& pair) {
    return may_be_near(pair.from) || may_be_near(pair.to);
  });
}

// A joint that has no terminal.
static bool may_be_star_point(const Resolved_component& component, Text position) {
  const auto connection = component.get(&Component_type::connection);
  const bool star = connection ? **connection == Connection::star
                               : may_have(component, "connection", component.own->connection);
  return star && nearest_word(position, ids_of(component.placed->terminals)).empty();
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
    const Component& placed = *component.placed;
    for (const Terminal_pair& pair : placed.model->pairs)
      for (const Value<Text>& name : {pair.from, pair.to})
        if (!is_known(placed, name))
          report(placed, component.id, name, is_misspelt(placed, name) ? Severity::error : Severity::warning,
                 sink);
    const Value<Text>& position = placed.protector->position;
    if (!is_known(placed, position) && !may_be_star_point(component, *position))
      report(placed, component.id, position, Severity::warning, sink);
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
