#include <algorithm>
#include <vector>

#include "lint/windings.h"

namespace ohmlore::rules {
namespace {

// What the phases of one motor may differ by: 10 % of the least, 0.5 Ω for leads. Common practice, no source.
double slack(double least) { return 0.1 * least + 0.5; }

void check_alike(const Readings& phases, Sink& sink) {
  const auto& list = phases.all;
  if (list.size() < 2) return;
  const auto by_high = [](const Reading& a, const Reading& b) { return a.ohm.high < b.ohm.high; };
  const auto by_low = [](const Reading& a, const Reading& b) { return a.ohm.low < b.ohm.low; };
  const auto least = std::min_element(list.begin(), list.end(), by_high);
  const auto most = std::max_element(list.begin(), list.end(), by_low);
  if (most->ohm.low <= least->ohm.high + slack(least->ohm.high)) return;
  const auto way = shortest_way_round(numbered(phases), static_cast<std::size_t>(most - list.begin()), true);
  if (way && most->ohm.low > way->ohm.high) return; // triangle-broken
  sink.report(most->node,
              fmt::format("{} is {}, but {} is {}: the three phases of a motor are alike; measure "
                          "again, or correct the connection",
                          ends_of(*most), ohm(most->ohm), ends_of(*least), ohm(least->ohm)));
  sink.relate(least->node, ends_of(*least));
}

template <class Compared>
void check_those(Readings all, Compared compared, Sink& sink) {
  std::erase_if(all.all, [&](const Reading& r) { return !compared(r); });
  check_alike(all, sink);
}

void check_phases(const Readings& all, Sink& sink) {
  check_those(
      all, [](const Reading& r) { return !is_common(r.from) && !is_common(r.to); }, sink);
  for (const Text point : all.terminals())
    if (is_common(point))
      check_those(
          all,
          [&](const Reading& r) {
            return (r.from == point && !is_common(r.to)) || (r.to == point && !is_common(r.from));
          },
          sink);
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto connection = component.get(&Component_type::connection);
    if (!component.is(Component_kind::winding) || !connection ||
        (**connection != Connection::star && **connection != Connection::delta))
      continue;
    for (const Readings& readings : readings_of(subject, component)) check_phases(finite(readings), sink);
  }
}

}

extern const Rule phases_unequal = {
    .family = Family::network,
    .severity = Severity::warning,
    .summary = "The phases of a motor in star or delta read unlike resistances.",
    .check = check,
};

}
