#include <algorithm>

#include "lint/network.h"

namespace ohmlore::rules {
namespace {

// What two readings may differ by although the windings are in series: 5 % for the maker's rounding and the
// spread of specimens, 0.5 Ω for the leads, which are in the sum twice.
constexpr double share = 0.05;
constexpr double leads = 0.5;

std::string written(const Reading& reading) { return fmt::format("{} to {}", reading.from, reading.to); }

// `whole` lies across the two others, which are in series. A whole above the sum is for triangle-broken.
void check_sum(const Reading& whole, const Reading& one, const Reading& other, std::string_view why,
               Sink& sink) {
  const Interval sum = one.ohm + other.ohm;
  const double slack = share * sum.middle() + leads;
  if (whole.ohm.high + slack >= sum.low) return;
  sink.report(
      whole.node,
      fmt::format("{} is {}, but {} and {} add up to {}: {}; measure again, or correct the connection",
                  written(whole), ohm(whole.ohm), written(one), written(other), ohm(sum), why));
  sink.relate(one.node, written(one));
  sink.relate(other.node, written(other));
}

void check_start_run(const std::vector<Reading>& readings, Sink& sink) {
  if (readings.size() != 3 || terminals_of(readings).size() != 3) return;
  const auto whole =
      std::max_element(readings.begin(), readings.end(),
                       [](const Reading& a, const Reading& b) { return a.ohm.middle() < b.ohm.middle(); });
  const std::size_t at = static_cast<std::size_t>(whole - readings.begin());
  check_sum(*whole, readings[(at + 1) % 3], readings[(at + 2) % 3],
            "start and run winding lie in series between the ends that are not common", sink);
}

// Only a terminal that says so is the common: readings among phases alone are all alike.
void check_unipolar(const std::vector<Reading>& readings, Sink& sink) {
  for (const Reading& whole : readings) {
    if (whole.from.starts_with("common") || whole.to.starts_with("common")) continue;
    for (const std::string& common : terminals_of(readings)) {
      if (!common.starts_with("common")) continue;
      const Reading* one = reading_between(readings, whole.from, common);
      const Reading* other = reading_between(readings, whole.to, common);
      if (one != nullptr && other != nullptr)
        check_sum(whole, *one, *other, "phase to phase is twice phase to common", sink);
    }
  }
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto connection = component.get(&Component_type::connection);
    if (!component.is(Component_kind::winding) || !connection) continue;
    for (const std::vector<Reading>& readings : reading_groups(subject, component)) {
      if (std::any_of(readings.begin(), readings.end(),
                      [](const Reading& r) { return std::isinf(r.ohm.high); }))
        continue;
      if (**connection == Connection::start_run) check_start_run(readings, sink);
      if (**connection == Connection::unipolar) check_unipolar(readings, sink);
    }
  }
}

}

extern const Rule winding_sum_off = {
    .family = Family::network,
    .severity = Severity::warning,
    .summary = "Windings that lie in series do not add up.",
    .check = check,
};

}
