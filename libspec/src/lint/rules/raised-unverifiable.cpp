#include <algorithm>
#include <vector>

#include "lint/raised.h"
#include "lint/rule.h"

namespace ohmlore::rules {

namespace {
struct Limit {
  const Resolved_component* sensor = nullptr;
  Text code;
  Node_id node = 0;
};
}

static void check(const Subject& subject, Sink& sink) {
  std::vector<Limit> limits; // once a sensor, whatever the number of its codes: at the first by id
  each_fault(subject, [&](Text id, const Fault& fault) {
    if (!is_ohm(fault.raised.below) && !is_ohm(fault.raised.above)) return;
    const Resolved_component* sensor = sensor_of(subject.resolved, fault);
    if (sensor == nullptr || sensor->placed == nullptr) return;
    if (sensor->lacks_part()) return; // the part may say it
    if (sensor->get(&Component_type::model) && sensor->get(&Component_type::temperature_range)) return;
    const auto known = std::find_if(limits.begin(), limits.end(),
                                    [&](const Limit& limit) { return limit.sensor == sensor; });
    if (known == limits.end())
      limits.push_back({sensor, id, fault.raised.node});
    else if (id < known->code)
      *known = {sensor, id, fault.raised.node};
  });
  for (const Limit& limit : limits) {
    const bool model = bool(limit.sensor->get(&Component_type::model)),
               range = bool(limit.sensor->get(&Component_type::temperature_range));
    sink.report(
        limit.node,
        fmt::format(
            "nobody can tell whether a healthy {} stays clear of this limit: it states no {}; state {}",
            limit.sensor->id,
            model   ? "`temperature_range`"
            : range ? "`model`"
                    : "`model` and no `temperature_range`",
            model || range ? "it" : "both"));
    sink.relate(limit.sensor->node, "the sensor");
  }
}

extern const Rule raised_unverifiable = {
    .family = Family::fault,
    .severity = Severity::note,
    .summary = "A code is raised at a resistance, and nothing says what its sensor reads when healthy.",
    .check = check,
    .goes_by_absence = true,
};

}
