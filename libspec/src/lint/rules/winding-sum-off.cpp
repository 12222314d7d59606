#include <algorithm>

#include "lint/windings.h"

namespace ohmlore::rules {
namespace {

// `whole` lies across the two others, which are in series. A whole above the sum is for triangle-broken.
void check_sum(const Reading& whole, const Reading& one, const Reading& other, std::string_view why,
               Sink& sink) {
  if (in_series(whole, one, other)) return;
  sink.report(whole.node, fmt::format("{} is {}, but {} and {} add up to {}: {}; measure again, or correct "
                                      "the connection",
                                      ends_of(whole), ohm(whole.ohm), ends_of(one), ends_of(other),
                                      ohm(one.ohm + other.ohm), why));
  sink.relate(one.node, ends_of(one));
  sink.relate(other.node, ends_of(other));
}

// Whichever is the common: the greatest of three lies across the two others.
void check_start_run(const Readings& readings, Sink& sink) {
  const auto ends = readings.terminals();
  if (ends.size() != 3) return;
  const Reading* three[] = {readings.between(ends[0], ends[1]), readings.between(ends[1], ends[2]),
                            readings.between(ends[0], ends[2])};
  if (three[0] == nullptr || three[1] == nullptr || three[2] == nullptr) return;
  std::sort(std::begin(three), std::end(three),
            [](const Reading* a, const Reading* b) { return a->ohm.middle() < b->ohm.middle(); });
  check_sum(*three[2], *three[0], *three[1],
            "start and run winding lie in series between the ends that are not common", sink);
}

// Only a terminal that says so is the common: readings among phases alone are all alike.
void check_common(const Readings& readings, std::string_view why, Sink& sink) {
  for (const Around_common& three : around_common(readings))
    if (likely_common(three).empty()) check_sum(*three.whole, *three.one, *three.other, why, sink);
}

constexpr double leads = 0.5; // ohm, in the one phase and perhaps not in the two; common practice, no source

// Phases are alike, so that one to the common tells of two that are not read to it: less than one and a half
// of it is one phase, not two.
void check_phases(const Readings& readings, std::string_view why, Sink& sink) {
  check_common(readings, why, sink);
  const auto ends = readings.terminals();
  const auto commons = [&](const Reading& reading) {
    return int{is_common(reading.from, ends)} + int{is_common(reading.to, ends)};
  };
  const auto& all = readings.all;
  const auto one = std::min_element(all.begin(), all.end(), [&](const Reading& a, const Reading& b) {
    return std::pair(commons(a) != 1, a.ohm.low) < std::pair(commons(b) != 1, b.ohm.low);
  });
  if (one == all.end() || commons(*one) != 1) return;
  for (const Reading& whole : all) {
    const auto is_read_to_common = [&](Text end) {
      return std::any_of(ends.begin(), ends.end(), [&](Text common) {
        return is_common(common, ends) && readings.between(end, common) != nullptr;
      });
    };
    if (commons(whole) != 0 || (is_read_to_common(whole.from) && is_read_to_common(whole.to))) continue;
    if (whole.ohm.high + leads >= 1.5 * one->ohm.low) continue;
    sink.report(whole.node,
                fmt::format("{} is {}, and {} is {}: {}; measure again, or correct the connection",
                            ends_of(whole), ohm(whole.ohm), ends_of(*one), ohm(one->ohm), why));
    sink.relate(one->node, ends_of(*one));
  }
}

void check(const Subject& subject, Sink& sink) {
  each_connected(subject, [&](const Readings& all, Connection connection, const Resolved_component&) {
    const Readings readings = finite(all);
    switch (connection) {
    case Connection::start_run: return check_start_run(readings, sink);
    case Connection::unipolar: return check_phases(readings, "phase to phase is twice phase to common", sink);
    case Connection::star:
      return check_phases(readings, "two phases lie in series between two ends of a star", sink);
    case Connection::two_direction:
      return check_common(readings, "both windings lie in series between the ends for the two directions",
                          sink);
    default: return;
    }
  });
}

}

extern const Rule winding_sum_off = {
    .family = Family::network,
    .severity = Severity::warning,
    .summary = "Windings that lie in series do not add up.",
    .check = check,
    .goes_by_order = true,
};

}
