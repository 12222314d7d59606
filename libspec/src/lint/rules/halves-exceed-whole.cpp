#include "lint/windings.h"

namespace ohmlore::rules {
namespace {

constexpr double leads = 0.5; // ohm, in the halves twice; common practice, no source

void check_halves(const Readings& readings, Interval contact, Sink& sink) {
  for (const Text wiper : readings.terminals()) {
    if (!is_wiper(wiper)) continue;
    for (const Reading& whole : readings.all) {
      const Reading* one = readings.between(wiper, whole.from);
      const Reading* other = readings.between(wiper, whole.to);
      if (is_wiper(whole.from) || is_wiper(whole.to) || one == nullptr || other == nullptr) continue;
      const Interval halves = one->ohm + other->ohm, allowed = whole.ohm + contact + contact;
      if (halves.low <= allowed.high + leads) continue;
      const Around_common around = {wiper, whole.from, whole.to, one, other, &whole};
      const Text likely = likely_common(around);
      sink.report(
          whole.node,
          fmt::format("{} and {} add up to {} at least, but {} is {} at most, and the wiper's contact "
                      "({}) is in the halves twice; {}",
                      ends_of(*one), ends_of(*other), ohm(halves.low), ends_of(whole), ohm(whole.ohm.high),
                      ohm(contact),
                      likely.empty() ? "measure all three at one position"
                                     : fmt::format("the largest reading is the whole, so that {} is likely "
                                                   "the wiper: exchange {} and {}",
                                                   likely, wiper, likely)));
      sink.relate(one->node, ends_of(*one));
      sink.relate(other->node, ends_of(*other));
      return;
    }
  }
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto contact = component.get(&Component_type::wiper_contact);
    if (!component.is(Component_kind::potentiometer) || !contact) continue;
    for (const Readings& readings : readings_of(subject, component))
      check_halves(finite(readings), written_interval(**contact), sink);
  }
}

}

extern const Rule halves_exceed_whole = {
    .family = Family::network,
    .severity = Severity::warning,
    .summary = "The halves of a potentiometer exceed the whole by more than twice the wiper's contact.",
    .check = check,
    .goes_by_absence = true,
    .goes_by_order = true,
};

}
