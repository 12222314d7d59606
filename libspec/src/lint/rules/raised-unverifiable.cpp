#include <algorithm>
#include <vector>

#include "lint/raised.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  std::vector<const Resolved_component*> told; // once a sensor, whatever the number of its codes
  each_fault(subject, [&](Text, const Fault& fault) {
    if (!is_ohm(fault.raised.below) && !is_ohm(fault.raised.above)) return;
    const Resolved_component* sensor = sensor_of(subject.resolved, fault);
    if (sensor == nullptr || sensor->placed == nullptr) return;
    if (sensor->lacks_part()) return; // the part may say it
    const bool model = bool(sensor->get(&Component_type::model)),
               range = bool(sensor->get(&Component_type::temperature_range));
    if (model && range) return;
    if (std::find(told.begin(), told.end(), sensor) != told.end()) return;
    told.push_back(sensor);
    sink.report(
        fault.raised.node,
        fmt::format(
            "nobody can tell whether a healthy {} stays clear of this limit: it states no {}; state {}",
            sensor->id,
            model   ? "`temperature_range`"
            : range ? "`model`"
                    : "`model` and no `temperature_range`",
            model || range ? "it" : "both"));
    sink.relate(sensor->node, "the sensor");
  });
}

extern const Rule raised_unverifiable = {
    .family = Family::fault,
    .severity = Severity::note,
    .summary = "A code is raised at a resistance, and nothing says what its sensor reads when healthy.",
    .check = check,
    .goes_by_absence = true,
    .goes_by_order = true,
};

}
