#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// The sensor that raises a code: the one named, else the only suspected component.
const Resolved_component* sensor_of(const Subject& subject, const Fault& fault) {
  if (fault.raised.component) return subject.resolved.component(*fault.raised.component);
  const Resolved_component* only = nullptr;
  for (const Suspect& suspect : fault.suspects) {
    if (!suspect.component) continue;
    const Resolved_component* component = subject.resolved.component(*suspect.component);
    if (component == nullptr || (only != nullptr && component != only)) return nullptr;
    only = component;
  }
  return only;
}

// Only a code that says open or short of its sensor, at times perhaps: an overheat code is right inside the
// range.
bool speaks_of_open_or_short(const Fault& fault, Text sensor) {
  bool any = false;
  for (const Suspect& suspect : fault.suspects) {
    if (!suspect.component || *suspect.component != sensor) continue;
    for (const Value<Mode>& mode : suspect.modes) {
      if (!mode || (*mode != Mode::open && *mode != Mode::short_ && *mode != Mode::intermittent))
        return false;
      any = true;
    }
  }
  return any;
}

void check(const Subject& subject, Sink& sink) {
  each_fault(subject, [&](Text, const Fault& fault) {
    if (!fault.raised) return;
    const Resolved_component* sensor = sensor_of(subject, fault);
    if (sensor == nullptr || !speaks_of_open_or_short(fault, sensor->id)) return;
    const auto model = sensor->get(&Component_type::model);
    const auto range = sensor->get(&Component_type::temperature_range);
    if (!model || !range || (*range)->single) return;
    const auto band = model_interval(*model, kelvin_interval(**range));
    if (!band) return;
    const auto report = [&](const Value<Quantity>& limit, std::string_view side) {
      sink.report(
          limit.node,
          fmt::format(
              "raised {} {}, but between {} and {} a healthy {} reads {}; the code would come up with a "
              "good sensor",
              side, ohm(limit->si), celsius((*range)->low.si), celsius((*range)->high.si), sensor->id,
              ohm(*band)));
      sink.relate(*range.document, range->node, "the temperatures that it is made for");
    };
    const auto is_ohm = [](const Value<Quantity>& limit) {
      return limit && limit->dimension == Dimension::resistance;
    };
    if (is_ohm(fault.raised.below) && written_interval(*fault.raised.below).low > band->low)
      report(fault.raised.below, "below");
    if (is_ohm(fault.raised.above) && written_interval(*fault.raised.above).high < band->high)
      report(fault.raised.above, "above");
  });
}

}

extern const Rule raised_inside_band = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A code for an open or shorted sensor is raised by a resistance that a healthy one reaches.",
    .check = check,
};

}
