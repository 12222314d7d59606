#include <algorithm>

#include "lint/raised.h"
#include "lint/rule.h"

namespace ohmlore::rules {

// A table may end before the range does.
static Interval within_rows(const Resistance_model& model, Interval kelvin) {
  Interval rows = {infinity, 0};
  for (const Table_row& row : model.rows)
    if (row.at) rows = {std::min(rows.low, row.at->si), std::max(rows.high, row.at->si)};
  const Interval both = {std::max(rows.low, kelvin.low), std::min(rows.high, kelvin.high)};
  return both.low <= both.high ? both : kelvin;
}

static void check(const Subject& subject, Sink& sink) {
  each_fault(subject, [&](Text, const Fault& fault) {
    if (!fault.raised) return;
    const Resolved_component* sensor = sensor_of(subject.resolved, fault);
    // An overheat code is right inside the range.
    if (sensor == nullptr || speaks_of(fault, sensor->id) != Speaks_of::a_break) return;
    const auto range = sensor->get(&Component_type::temperature_range);
    if (!range || (*range)->single) return;
    const auto model = sensor->get(&Component_type::model);
    if (!model) return;
    const Interval kelvin = within_rows(*model, kelvin_interval(**range));
    const auto band = model_interval(*model, kelvin);
    if (!band || std::isinf(band->high)) return; // nothing that could be inside
    const Value<Quantity>&below = fault.raised.below, &above = fault.raised.above;
    if (is_ohm(below) && is_ohm(above) && below->si >= above->si) return; // raised-always
    const auto report = [&](const Value<Quantity>& limit, std::string_view side, double reached) {
      const int digits = digits_apart(limit->si, reached);
      sink.report(
          limit.node,
          fmt::format(
              "raised {} {}, but between {} and {} a healthy {} reads {}: the code would come up with "
              "a good sensor; mend the limit, the temperature range or the model",
              side, ohm(limit->si, digits), celsius(kelvin.low), celsius(kelvin.high), sensor->id,
              ohm(*band, digits)));
      sink.relate(*range.document, range->node, "the temperatures that it is made for");
    };
    if (is_ohm(below) && written_interval(*below).low > band->low) report(below, "below", band->low);
    if (is_ohm(above) && written_interval(*above).high < band->high) report(above, "above", band->high);
  });
}

extern const Rule raised_inside_band = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A code for an open or shorted sensor is raised by a resistance that a healthy one reaches.",
    .check = check,
};

}
