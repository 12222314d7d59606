#include <numbers>

#include "lint/power.h"

namespace ohmlore::rules {
namespace {

// Ratings are rounded, and makers state them at different loads. Common practice, no source.
constexpr double slack = 1.15;

// Power over voltage times current, at most. Of three phases each has a third of the power: U/√3 times I
// where U lies between two lines, U times I where it lies from each to neutral.
struct Phases {
  double most = 1;
  std::string_view words = "";
};
Phases phases_of(const Resolved& resolved, const Resolved_component& component) {
  if (!may_be_three_phase(resolved, component)) return {};
  if (is_rated_between_lines(component)) return {std::numbers::sqrt3, "√3 times "};
  return {3, "3 phases times "};
}

void check_product(const Resolved& resolved, Sink& sink, const Resolved_component& component) {
  const Component_type& own = *component.own;
  const auto volt = component.get(&Component_type::rated_voltage);
  const auto ampere = component.get(&Component_type::rated_current);
  const auto watt = component.get(&Component_type::rated_power);
  if (!volt || !ampere || !watt || (!own.rated_voltage && !own.rated_current && !own.rated_power)) return;
  const Phases phases = phases_of(resolved, component);
  const double apparent = phases.most * (*volt)->si * (*ampere)->si;
  if (!(apparent > 0) || (*watt)->si <= slack * apparent) return;
  sink.report(
      own.rated_power ? own.rated_power.node : component.node,
      fmt::format("{} is rated {}, but {}{} times {} is {}: no part draws more power than that; mend one "
                  "of the three",
                  component.id, describe((*watt)->si, Dimension::power), phases.words,
                  describe((*volt)->si, Dimension::voltage), describe((*ampere)->si, Dimension::current),
                  describe(apparent, Dimension::power)));
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    // The rating of a contact is what it switches, not what it draws.
    if (!component.known_kind || component.is(Component_kind::switch_) || component.is(Component_kind::fuse))
      continue;
    check_product(subject.resolved, sink, component);
  }
}

}

extern const Rule ratings_disagree = {
    .family = Family::heater,
    .severity = Severity::warning,
    .summary = "Rated voltage, current and power of a part do not go together.",
    .check = check,
    .goes_by_absence = true,
};

}
