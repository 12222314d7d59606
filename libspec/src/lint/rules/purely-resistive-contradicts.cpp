#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// What in a component does not conduct like a resistor; empty where it states nothing of the kind.
std::string_view obstacle(const Resolved_component& component) {
  const auto drive = component.get(&Component_type::drive);
  const auto suppression = component.get(&Component_type::suppression);
  const auto element = component.get(&Component_type::element);
  switch (component.kind()) {
  case Component_kind::switch_: return "a switch has a contact that moves";
  case Component_kind::capacitor: return "a capacitor charges from the meter";
  case Component_kind::electronic: return "its kind is `electronic`";
  case Component_kind::igniter:
    return element && **element == Heater_element::spark ? "its `element` is `spark`, which is electronics"
                                                         : "";
  case Component_kind::coil:
    if (drive && **drive == Drive::rectified) return "its `drive` is `rectified`, by a rectifier inside";
    if (drive && **drive == Drive::economiser) return "its `drive` is `economiser`, which is electronics";
    if (!suppression) return "";
    if (**suppression == Suppression::bridge) return "its `suppression` is a `bridge` of diodes";
    if (**suppression == Suppression::diode || **suppression == Suppression::series_diode)
      return "its `suppression` is a diode";
    return "";
  default: return "";
  }
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const Value<bool>& declared = component.own->purely_resistive;
    if (!declared || !*declared || !component.known_kind) continue;
    const std::string_view why = obstacle(component);
    if (!why.empty())
      sink.report(declared.node, fmt::format("{} is declared linear and without polarity, but {}; "
                                             "remove the wrong one of the two",
                                             component.id, why));
    else if (component.get(&Component_type::protector))
      sink.report_as(Severity::note, declared.node,
                     fmt::format("{} is declared to have no contact that moves, but has a protector, which "
                                 "may be open; leave `purely_resistive` out",
                                 component.id));
  }
}

}

extern const Rule purely_resistive_contradicts = {
    .family = Family::network,
    .severity = Severity::error,
    .summary = "A component is declared to be purely resistive, and states that it is not.",
    .check = check,
};

}
