#include <algorithm>

#include "lint/windings.h"

namespace ohmlore::rules {
namespace {

// The terminals that readings join with the first one.
std::vector<Text> joined_with_first(const Readings& readings) {
  std::vector<Text> joined = {readings.all.front().from};
  const auto has = [&](Text end) { return std::find(joined.begin(), joined.end(), end) != joined.end(); };
  for (std::size_t next = 0; next < joined.size(); ++next)
    for (const Reading& reading : readings.all) {
      const Text here = joined[next];
      if (reading.from == here && !has(reading.to)) joined.push_back(reading.to);
      if (reading.to == here && !has(reading.from)) joined.push_back(reading.from);
    }
  return joined;
}

// A stepper has two windings with two ends each.
void check_bipolar(const Readings& readings, Sink& sink) {
  for (std::size_t i = 0; i < readings.all.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      const Reading &later = readings.all[i], &earlier = readings.all[j];
      const auto at = [&](Text end) { return earlier.from == end || earlier.to == end; };
      if (at(later.from) == at(later.to)) continue; // apart, or the same two
      const Text shared = at(later.from) ? later.from : later.to;
      sink.report(later.node,
                  fmt::format("{} reads {} and {} {}: the two windings of a bipolar stepper do "
                              "not touch, so {} can have a reading to one end only; correct the "
                              "terminals, or the connection",
                              ends_of(later), ohm(later.ohm), ends_of(earlier), ohm(earlier.ohm), shared));
      sink.relate(earlier.node, ends_of(earlier));
      return;
    }
}

void check_isolated(const Readings& readings, std::size_t terminals, Sink& sink) {
  const auto joined = joined_with_first(readings);
  if (terminals < 3 || joined.size() < terminals) return;
  const Reading& last = readings.all.back();
  sink.report(last.node, fmt::format("{} reads {}, and so readings join all {} terminals ({}): isolated "
                                     "windings have no joint; correct the readings, or the connection",
                                     ends_of(last), ohm(last.ohm), terminals, listed(joined)));
}

void check(const Subject& subject, Sink& sink) {
  each_connected(subject, [&](const Readings& all, Connection connection,
                              const Resolved_component& component) {
    const Readings readings = finite(all);
    if (readings.all.empty()) return;
    if (connection == Connection::bipolar) check_bipolar(readings, sink);
    if (connection == Connection::isolated)
      check_isolated(readings, component.placed ? component.placed->terminals.size() : all.terminals().size(),
                     sink);
  });
}

}

extern const Rule windings_joined = {
    .family = Family::network,
    .severity = Severity::warning,
    .summary = "Windings that are declared separate read a path between them.",
    .check = check,
    .goes_by_order = true,
};

}
