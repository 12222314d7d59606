#include "lint/raised.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_fault(subject, [&](Text, const Fault& fault) {
    const Value<Quantity>&below = fault.raised.below, &above = fault.raised.above;
    if (is_ohm(below) && below->si <= 0) {
      sink.report(below.node,
                  fmt::format("raised below {}: no resistance is, so that the code never comes up; "
                              "state the least reading that is still accepted",
                              ohm(below->si)));
      return;
    }
    const Resolved_component* sensor = fault.raised ? sensor_of(subject.resolved, fault) : nullptr;
    if (sensor == nullptr) return;
    // One that nobody knows may be the sensor, misspelt.
    if (std::any_of(fault.suspects.begin(), fault.suspects.end(), [&](const Suspect& suspect) {
          return suspect.component && subject.resolved.component(*suspect.component) == nullptr;
        }))
      return;
    const Speaks_of speaks = speaks_of(fault, sensor->id);
    const auto range = sensor->get(&Component_type::temperature_range);
    if (!range || (*range)->single) return;
    const Interval made_for = kelvin_interval(**range);
    const auto report = [&](const Value<Quantity>& limit, std::string_view side, const std::string& shown,
                            const std::string& reached) {
      sink.report(
          limit.node,
          fmt::format("raised {} {}, but {} is made for {}{}: only an open or shorted one would raise "
                      "it, and neither is suspected; name another limit or sensor, or suspect it of "
                      "`open` or `short`",
                      side, shown, sensor->id, celsius(made_for), reached));
      sink.relate(*range.document, range->node, "the temperatures that it is made for");
    };
    if (speaks != Speaks_of::the_appliance && speaks != Speaks_of::drift) return;
    if (is_temperature(below) && written_interval(*below).high < made_for.low)
      report(below, "below", celsius(below->si), "");
    if (is_temperature(above) && written_interval(*above).low > made_for.high)
      report(above, "above", celsius(above->si), "");

    const auto model = sensor->get(&Component_type::model);
    const auto band = model ? model_interval(*model, made_for) : std::nullopt;
    if (!band || speaks != Speaks_of::the_appliance) return; // drift leaves the band
    const auto report_ohm = [&](const Value<Quantity>& limit, std::string_view side, double end) {
      const int digits = digits_apart(limit->si, end);
      report(limit, side, ohm(limit->si, digits), fmt::format(" and reads {} there", ohm(*band, digits)));
    };
    if (is_ohm(below) && written_interval(*below).high < band->low) report_ohm(below, "below", band->low);
    if (is_ohm(above) && written_interval(*above).low > band->high) report_ohm(above, "above", band->high);
  });
}

extern const Rule raised_out_of_reach = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A code is raised by a reading that its sensor never gives.",
    .check = check,
    .goes_by_absence = true,
};

}
