#include <algorithm>

#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// Common practice, no source: the run capacitors of motors begin here.
constexpr double least_capacitance = 1e-6; // farad

// A hazard whose kind could not be read may be one.
bool names_stored_charge(const Profile& profile) {
  return std::any_of(profile.safety.hazards.begin(), profile.safety.hazards.end(), [](const Hazard& hazard) {
    return !hazard.kind || *hazard.kind == Hazard_kind::stored_charge;
  });
}

constexpr std::string_view remedy = "but `safety` names no hazard of kind `stored_charge`; say there what to "
                                    "verify, after which wait and below "
                                    "which voltage";

// A capacitor that is large, or of which nobody says that it is small.
bool holds_charge(const Resolved_component& component) {
  if (!component.is(Component_kind::capacitor)) return false;
  const auto capacitance = component.get(&Component_type::capacitance);
  if (capacitance) return capacitance->value.si >= least_capacitance;
  return !component.lacks_part(); // else it may stand in the part
}

bool lies_on_extra_low(const Resolved& resolved, const Test& test) {
  return !test.probes.empty() &&
         std::all_of(test.probes.begin(), test.probes.end(), [&](const Value<Contact>& probe) {
           const auto* circuit = probe ? resolved.circuit_class(probe) : nullptr;
           return circuit != nullptr && is_extra_low(**circuit);
         });
}

void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr || names_stored_charge(*profile)) return;
  for (const Resolved_component& component : subject.resolved.components) {
    if (!holds_charge(component)) continue;
    const auto capacitance = component.get(&Component_type::capacitance);
    sink.report(component.node,
                fmt::format("{} is a capacitor of {}, {}", component.id,
                            capacitance ? describe(capacitance->value.si, Dimension::capacitance)
                                        : "unstated capacitance",
                            remedy));
  }
  each_test(subject, [&](Text id, const Test& test) {
    const bool expected = test.expect.kind && *test.expect.kind == Expectation_kind::rises_to_open;
    const bool answered = test.response.kind && *test.response.kind == Response_kind::rises_to_open;
    if ((!expected && !answered) || lies_on_extra_low(subject.resolved, test)) return;
    const auto* component = subject.resolved.component_of(test);
    if (component != nullptr && holds_charge(*component)) return; // said above
    sink.report(
        expected ? test.expect.node : test.response.node,
        fmt::format("the reading of {} rises because a capacitor charges from the meter, {}", id, remedy));
  });
}

}

extern const Rule charge_unmentioned = {
    .family = Family::safety,
    .severity = Severity::warning,
    .summary = "A capacitor is there, or tested, but no stored charge is named as a hazard.",
    .check = check,
    .goes_by_absence = true,
};

}
