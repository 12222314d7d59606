#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr || profile->appliance.models.size() < 2) return;
  for (const Resolved_component& component : subject.resolved.components) {
    if (!component.is(Component_kind::coding) || component.get(&Component_type::code) ||
        may_have(component, "code", component.own->code) ||
        stated(subject.document, *component.placed, "when", component.placed->when))
      continue;
    // Without a reading nobody is told which one is right.
    const bool read = bool(component.get(&Component_type::model)) ||
                      std::any_of(profile->tests.begin(), profile->tests.end(), [&](const auto& test) {
                        return test.value.component && *test.value.component == component.id;
                      });
    if (!read) continue;
    sink.report(
        component.node,
        fmt::format("{} tells the board which model it sits in, and this profile holds for {} models; "
                    "say in `code` or `when` which of them reads like this",
                    component.id, profile->appliance.models.size()));
    sink.relate(profile->appliance.models.node, "the models");
  }
}

extern const Rule coding_unspecific = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A coding is to be read alike on several models, and nothing says for which it is right.",
    .check = check,
};

}
