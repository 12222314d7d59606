#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const Component_type& own = *component.own;
    const auto dark = component.get(&Component_type::dark), light = component.get(&Component_type::light);
    if ((!own.dark && !own.light) || !dark || !light) continue; // both of the part: said there
    if (written_interval(**dark).high >= written_interval(**light).low) continue;
    const auto [in_the_dark, in_light] = apart((*dark)->si, (*light)->si, Dimension::resistance);
    sink.report(own.dark ? own.dark.node : own.light.node,
                fmt::format("{} reads {} at least in the dark and {} at most in room light: the resistance "
                            "of a photocell falls with light; exchange the two, or mend the wrong one",
                            component.id, in_the_dark, in_light));
  }
}

extern const Rule dark_below_light = {
    .family = Family::band,
    .severity = Severity::error,
    .summary = "A photocell reads less in the dark than in light.",
    .check = check,
};

}
