#include <algorithm>

#include "lint/windings.h"

namespace ohmlore::rules {
namespace {

// What the phases of one motor may differ by: 10 % of the least, and 0.5 Ω for leads, or 0.2 Ω for contacts
// where the model states them, taken with the same leads. Common practice, no source.
double slack(const Reading& least) { return 0.1 * least.ohm.high + (least.test == nullptr ? 0.2 : 0.5); }

void check_alike(const Readings& phases, std::string_view what, Sink& sink) {
  const auto& list = phases.all;
  if (list.size() < 2) return;
  const auto by_high = [](const Reading& a, const Reading& b) { return a.ohm.high < b.ohm.high; };
  const auto by_low = [](const Reading& a, const Reading& b) { return a.ohm.low < b.ohm.low; };
  const auto least = std::min_element(list.begin(), list.end(), by_high);
  const auto most = std::max_element(list.begin(), list.end(), by_low);
  if (most->ohm.low <= least->ohm.high + slack(*least)) return;
  const auto way = shortest_way_round(numbered(phases), static_cast<std::size_t>(most - list.begin()), true);
  if (way && most->ohm.low > way->ohm.high) return; // triangle-broken
  sink.report(most->node,
              fmt::format("{} is {}, but {} is {}: {} are alike; measure again, or correct the connection",
                          ends_of(*most), ohm(most->ohm), ends_of(*least), ohm(least->ohm), what));
  sink.relate(least->node, ends_of(*least));
}

// The readings of which that many ends are a centre, as `is_centre` says.
template <class Is_centre>
Readings with_centres(Readings readings, int count, Is_centre is_centre) {
  std::erase_if(readings.all,
                [&](const Reading& r) { return int{is_centre(r.from)} + int{is_centre(r.to)} != count; });
  return readings;
}

// Whether a winding surely has its tap there: two readings to it are less than the one across both, and add
// up to it.
bool is_tap(const Readings& readings, Text terminal) {
  return std::any_of(readings.all.begin(), readings.all.end(), [&](const Reading& whole) {
    const Reading* one = readings.between(terminal, whole.from);
    const Reading* other = readings.between(terminal, whole.to);
    return one != nullptr && other != nullptr && whole.ohm.low > std::max(one->ohm.high, other->ohm.high) &&
           in_series(whole, *one, *other);
  });
}

void check_three_phases(const Readings& readings, Sink& sink) {
  constexpr std::string_view phases = "the three phases of a motor";
  const auto ends = readings.terminals();
  const auto is_centre = [&](Text end) { return is_common(end, ends); };
  check_alike(with_centres(readings, 0, is_centre), phases, sink);
  check_alike(with_centres(readings, 1, is_centre), phases, sink);
}

// From end to end a unipolar one has two windings.
void check_stepper(const Readings& readings, bool unipolar, Sink& sink) {
  const auto ends = readings.terminals();
  const auto is_centre = [&](Text end) { return is_common(end, ends) || is_tap(readings, end); };
  check_alike(with_centres(readings, unipolar ? 1 : 0, is_centre), "the windings of a stepper motor", sink);
}

void check(const Subject& subject, Sink& sink) {
  each_connected(subject, [&](const Readings& readings, Connection connection, const Resolved_component&) {
    switch (connection) {
    case Connection::star:
    case Connection::delta: return check_three_phases(finite(readings), sink);
    case Connection::bipolar: return check_stepper(finite(readings), false, sink);
    case Connection::unipolar: return check_stepper(finite(readings), true, sink);
    default: return;
    }
  });
}

}

extern const Rule phases_unequal = {
    .family = Family::network,
    .severity = Severity::warning,
    .summary = "The phases of a motor in star or delta, or the windings of a stepper motor, read unlike "
               "resistances.",
    .check = check,
    .goes_by_order = true,
};

}
