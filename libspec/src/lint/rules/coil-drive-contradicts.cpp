#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const Component_type& own = *component.own;
    const auto drive = component.get(&Component_type::drive);
    if (!component.is(Component_kind::coil) || !drive) continue;
    const auto volt = component.get(&Component_type::rated_voltage);
    const auto suppression = component.get(&Component_type::suppression);
    const bool dc = **drive == Drive::dc, ac = **drive == Drive::ac;
    if (volt && (own.rated_voltage || own.drive) &&
        ((dc && (*volt)->form == Supply_form::ac) || (ac && (*volt)->form == Supply_form::dc))) {
      sink.report(own.drive ? own.drive.node : own.rated_voltage.node,
                  fmt::format("{} is driven with {}, but rated {} {}; mend one{}", component.id,
                              word_of(**drive), describe((*volt)->si, Dimension::voltage), dc ? "ac" : "dc",
                              dc ? ", or say `rectified` where a rectifier is built in" : ""));
    }
    if (!ac || !suppression || (!own.drive && !own.suppression)) continue;
    if (**suppression == Suppression::diode)
      sink.report(own.suppression ? own.suppression.node : own.drive.node,
                  fmt::format("a diode across {} would short every other half-wave of its ac supply; mend "
                              "`drive` or `suppression`",
                              component.id));
    else if (**suppression == Suppression::series_diode || **suppression == Suppression::bridge)
      sink.report(
          own.drive ? own.drive.node : own.suppression.node,
          fmt::format("{} is fed through {}: its drive is `rectified`, and what it reads depends on the "
                      "polarity of the leads",
                      component.id, **suppression == Suppression::bridge ? "a bridge" : "a diode in series"));
  }
}

}

extern const Rule coil_drive_contradicts = {
    .family = Family::coil,
    .severity = Severity::warning,
    .summary = "The drive of a coil contradicts its rated voltage or its suppression.",
    .check = check,
};

}
