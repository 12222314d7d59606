#include <cctype>
#include <charconv>

#include "lint/platinum.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// Calls `f(r0)` for each platinum sensor that a name speaks of: "Pt1000", "PT 100", "pt-500". "PT1" may be
// the tag of a pressure transmitter.
template <class F>
void each_named(Text name, F f) {
  const auto is = [&](std::size_t at, char small) { return (name[at] | 0x20) == small; };
  for (std::size_t at = 0; at + 3 < name.size(); ++at) {
    const auto before = static_cast<unsigned char>(at > 0 ? name[at - 1] : ' ');
    if (!is(at, 'p') || !is(at + 1, 't') || before >= 0x80 || std::isalnum(before)) continue;
    const bool spaced = name[at + 2] == ' ' || name[at + 2] == '-';
    int number = 0;
    std::from_chars(name.data() + at + (spaced ? 3 : 2), name.data() + name.size(), number);
    for (const double r0 : usual_r0)
      if (number == r0) f(r0);
  }
}

// The sensor that a name speaks of in the place of that of `r0`; 0 where it speaks of that, or of none.
double misnamed(Text name, const Quantity& r0) {
  double named = 0;
  bool fits = false;
  each_named(name, [&](double one) {
    named = one;
    fits = fits || written_interval(r0).contains(one);
  });
  return fits ? 0 : named;
}

// The part's own document is told: what is mended there may be what all that name it need.
bool said_of_part(const Resolved_component& component, const Quantity& r0, double named) {
  const Value<Text>& name = component.part->part()->component.name;
  return name && misnamed(*name, r0) == named;
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto model = component.get(&Component_type::model);
    const auto name = component.get(&Component_type::name);
    if (!component.is(Component_kind::rtd) || !name || !model || !model->kind ||
        *model->kind != Model_kind::iec_60751 || !model->r0)
      continue;
    const double named = misnamed(**name, *model->r0);
    const bool own = model.document == component.document;
    if (named == 0 || (!own && said_of_part(component, *model->r0, named))) continue;
    sink.report(
        own ? model->r0.node : component.placed->part.node,
        fmt::format("{} is named {}, and its model has {} at 0 °C, where a Pt{} has {}; mend the wrong "
                    "one",
                    component.id, quoted(**name), ohm(model->r0->si), named, ohm(named)));
    sink.relate(*name.document, name->node, "the name");
  }
}

}

extern const Rule r0_contradicts_name = {
    .family = Family::rtd,
    .severity = Severity::warning,
    .summary = "A sensor is named after another platinum resistor than its model's.",
    .check = check,
};

}
