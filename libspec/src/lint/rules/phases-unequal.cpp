#include <algorithm>
#include <vector>

#include "lint/windings.h"

namespace ohmlore::rules {
namespace {

// What the phases of one motor may differ by: 10 % of the least, and 0.5 Ω for leads, or 0.2 Ω for contacts
// where one model states both, taken with the same leads. Common practice, no source.
double slack(const Reading& most, const Reading& least) {
  const bool of_model = most.test == nullptr && least.test == nullptr;
  return 0.1 * least.ohm.high + (of_model ? 0.2 : 0.5);
}

void check_alike(const Readings& phases, std::string_view what, Sink& sink) {
  const auto& list = phases.all;
  if (list.size() < 2) return;
  const auto by_high = [](const Reading& a, const Reading& b) { return a.ohm.high < b.ohm.high; };
  const auto by_low = [](const Reading& a, const Reading& b) { return a.ohm.low < b.ohm.low; };
  const auto least = std::min_element(list.begin(), list.end(), by_high);
  const auto most = std::max_element(list.begin(), list.end(), by_low);
  if (most->ohm.low <= least->ohm.high + slack(*most, *least)) return;
  const auto way = shortest_way_round(numbered(phases), static_cast<std::size_t>(most - list.begin()), true);
  if (way && most->ohm.low > way->ohm.high) return; // triangle-broken
  sink.report(most->node,
              fmt::format("{} is {}, but {} is {}: {} are alike; measure again, or correct the connection",
                          ends_of(*most), ohm(most->ohm), ends_of(*least), ohm(least->ohm), what));
  sink.relate(least->node, ends_of(*least));
}

template <class Compared>
void check_those(Readings all, Compared compared, std::string_view what, Sink& sink) {
  std::erase_if(all.all, [&](const Reading& r) { return !compared(r); });
  check_alike(all, what, sink);
}

void check_from_end_to_end(const Readings& all, std::string_view what, Sink& sink) {
  check_those(
      all, [](const Reading& r) { return !is_common(r.from) && !is_common(r.to); }, what, sink);
}

void check_to_common(const Readings& all, std::string_view what, Sink& sink) {
  for (const Text point : all.terminals())
    if (is_common(point))
      check_those(
          all,
          [&](const Reading& r) {
            return (r.from == point && !is_common(r.to)) || (r.to == point && !is_common(r.from));
          },
          what, sink);
}

constexpr std::string_view phases = "the three phases of a motor",
                           windings = "the windings of a stepper motor";

void check(const Subject& subject, Sink& sink) {
  each_connected(subject, [&](const Readings& readings, Connection connection, const Resolved_component&) {
    switch (connection) {
    case Connection::star:
    case Connection::delta:
      check_from_end_to_end(finite(readings), phases, sink);
      check_to_common(finite(readings), phases, sink);
      return;
    case Connection::bipolar: return check_from_end_to_end(finite(readings), windings, sink);
    // Only a terminal that says so is the common: from end to end there are two of its windings.
    case Connection::unipolar: return check_to_common(finite(readings), windings, sink);
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
};

}
