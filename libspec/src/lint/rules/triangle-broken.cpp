#include <algorithm>
#include <limits>
#include <optional>

#include "lint/network.h"
#include "lint/readings.h"

namespace ohmlore::rules {
namespace {

using Path = std::vector<const Reading*>;

bool spans(const Reading& reading, std::string_view a, std::string_view b) {
  return (reading.from == a && reading.to == b) || (reading.from == b && reading.to == a);
}

// The way round a reading, over others, whose greatest resistances add up to the least (Bellman and Ford).
std::optional<Path> shortest_way_round(const std::vector<Reading>& readings, const Reading& direct,
                                       Interval& sum) {
  constexpr double far = std::numeric_limits<double>::infinity();
  struct Reached {
    std::string terminal;
    Interval ohm;
    Path path;
  };
  std::vector<Reached> reached;
  for (const std::string& terminal : terminals_of(readings))
    reached.push_back({terminal, terminal == direct.from ? Interval{0, 0} : Interval{far, far}, {}});
  const auto at = [&](std::string_view terminal) -> Reached& {
    return *std::find_if(reached.begin(), reached.end(),
                         [&](const Reached& r) { return r.terminal == terminal; });
  };
  const auto relax = [&](const Reading& reading, const std::string& from, const std::string& to) {
    const Reached& before = at(from);
    Reached& after = at(to);
    if (std::isinf(before.ohm.high) || std::isinf(reading.ohm.high)) return false;
    const Interval longer = before.ohm + reading.ohm;
    if (longer.high >= after.ohm.high) return false;
    after.ohm = longer;
    after.path = before.path;
    after.path.push_back(&reading);
    return true;
  };
  bool changed = true;
  for (std::size_t round = 0; changed && round < reached.size(); ++round) {
    changed = false;
    for (const Reading& reading : readings) {
      // Two tests of one pair are for expectations-contradict; two pairs of a model are compared here.
      if (&reading == &direct || (reading.test != nullptr && spans(reading, direct.from, direct.to)))
        continue;
      const bool there = relax(reading, reading.from, reading.to);
      const bool back = relax(reading, reading.to, reading.from);
      changed = changed || there || back;
    }
  }
  const Reached& end = at(direct.to);
  if (std::isinf(end.ohm.high)) return std::nullopt;
  sum = end.ohm;
  return end.path;
}

// The theorem holds for linear, non-polar elements in one state.
bool is_certain(const Resolved_component& component, const Reading& direct, const Path& path) {
  const auto resistive = component.get(&Component_type::purely_resistive);
  if (!resistive || !**resistive || component.get(&Component_type::protector)) return false;
  return std::all_of(path.begin(), path.end(), [&](const Reading* reading) {
    const Test* a = direct.test;
    const Test* b = reading->test;
    if (a == nullptr || b == nullptr) return a == b;
    const bool no_polarity = !a->positive && !b->positive;
    return *a->side == *b->side && same_preparation(*a, *b) && *a->note == *b->note && no_polarity &&
           temperature_of(*a);
  });
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    if (component.is(Component_kind::electronic)) continue; // readings through electronics are no resistances
    for (const std::vector<Reading>& readings : reading_groups(subject, component))
      for (const Reading& direct : readings) {
        Interval sum;
        const auto path = shortest_way_round(readings, direct, sum);
        if (!path || direct.ohm.low <= sum.high) continue;
        std::vector<std::string> legs;
        for (const Reading* leg : *path) legs.push_back(fmt::format("{} to {}", leg->from, leg->to));
        const std::string least =
            fmt::format("{} to {} is at least {}", direct.from, direct.to, ohm(direct.ohm.low));
        sink.report_as(
            is_certain(component, direct, *path) ? Severity::error : Severity::warning, direct.node,
            path->size() == 1
                ? fmt::format("{} here and at most {} in another pair; keep the one that is right", least,
                              ohm(sum.high))
                : fmt::format("{}, but {} add up to at most {}: no network reads more between two terminals "
                              "than over a way round; correct one",
                              least, listed(legs), ohm(sum.high)));
        for (std::size_t i = 0; i < path->size(); ++i) sink.relate((*path)[i]->node, legs[i]);
      }
  }
}

}

extern const Rule triangle_broken = {
    .family = Family::network,
    .severity = Severity::error,
    .summary = "Two terminals read more than the way round over a third.",
    .check = check,
};

}
