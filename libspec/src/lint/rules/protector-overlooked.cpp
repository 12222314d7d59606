#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// A protector may stand in a part that is not at hand.
bool surely_without(const Resolved_component& component) {
  return component.is(Component_kind::winding) && !component.lacks_part() &&
         !component.get(&Component_type::protector);
}

void check_modes(Sink& sink, const Resolved_component& component, const List<Value<Mode>>& modes) {
  if (!surely_without(component)) return;
  for (const Value<Mode>& mode : modes) {
    if (!mode || *mode != Mode::protector_open) continue;
    sink.report_as(
        Severity::note, mode.node,
        fmt::format("{} states no `protector` that could be open; describe it, with where it trips "
                    "and how it resets",
                    component.id));
    sink.relate(component.node, "the component");
  }
}

// Hotter than where the protector opens, there is nothing to read.
void check_temperature(Sink& sink, const Resolved_component& component, const Value<Range>& at,
                       const Document& document) {
  const auto protector = component.get(&Component_type::protector);
  if (!protector || !protector->trips_at || !at) return;
  const double trips = written_interval(*protector->trips_at).high;
  const Interval kelvin = kelvin_interval(*at);
  if (kelvin.high <= trips) return;
  report_contradiction(sink, component, {&document, at.node, "the resistance of the part"},
                       {protector.document, protector->node, "the protector"},
                       fmt::format("{} reads open above {}, where its protector trips, and this is stated at "
                                   "{}; mend the wrong one",
                                   component.id, celsius(protector->trips_at->si), celsius(kelvin)));
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto model = component.get(&Component_type::model);
    check_temperature(sink, component, model->at, *model.document);
  }
  each_component_test(subject, [&](Text, const Test& test, const Resolved_component& component) {
    check_temperature(sink, component, test.expect.at, subject.document);
    check_modes(sink, component, test.excludes);
  });
  each_suspect(subject, [&](const Bound_suspect& suspect) {
    if (suspect.component != nullptr) check_modes(sink, *suspect.component, suspect.own->modes);
  });
}

}

extern const Rule protector_overlooked = {
    .family = Family::coil,
    .severity = Severity::warning,
    .summary =
        "The protector of a winding is not described, or would be open where the winding is to be read.",
    .check = check,
    .goes_by_absence = true,
};

}
