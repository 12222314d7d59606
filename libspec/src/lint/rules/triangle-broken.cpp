#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "lint/network.h"

namespace ohmlore::rules {
namespace {

// Whether any reading exceeds the two least together, as every way round is that much, or of a model's pairs
// the least.
bool may_break(const Readings& readings) {
  double highest = 0, least = infinity, second = infinity;
  for (const Reading& reading : readings.all) {
    highest = std::max(highest, reading.ohm.low);
    second = std::min(second, std::max(least, reading.ohm.high));
    least = std::min(least, reading.ohm.high);
  }
  const bool pairs = readings.all.front().test == nullptr;
  return highest > (pairs ? least : least + second);
}

// What the least legs at both ends allow: a reading below that breaks no triangle, and most are.
bool may_break(const std::vector<Between>& readings, std::size_t direct) {
  double at_a = infinity, at_b = infinity, across = infinity;
  const Between& d = readings[direct];
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (i == direct) continue;
    const auto& [a, b, ohm] = readings[i];
    if (a == d.a || b == d.a) at_a = std::min(at_a, ohm.high);
    if (a == d.b || b == d.b) at_b = std::min(at_b, ohm.high);
    if ((a == d.a && b == d.b) || (a == d.b && b == d.a)) across = std::min(across, ohm.high);
  }
  return d.ohm.low > std::min(at_a + at_b, across);
}

// A way round that the reading exceeds, over readings by whose number `holds` is true.
template <class Holds>
std::optional<Way_round> broken_way(const Readings& readings, const std::vector<Between>& numbered,
                                    std::size_t direct, double slack, Holds holds) {
  std::vector<Between> some;
  std::vector<std::size_t> original;
  std::size_t here = 0;
  for (std::size_t i = 0; i < numbered.size(); ++i) {
    if (i == direct) here = some.size();
    if (i != direct && !holds(i)) continue;
    some.push_back(numbered[i]);
    original.push_back(i);
  }
  // Two tests of one pair are for expectations-contradict; two pairs of a model are compared here.
  auto way = shortest_way_round(some, here, readings.all[direct].test == nullptr);
  if (!way ||
      (Interval{some[here].ohm.low, some[here].ohm.low} - Interval{slack, slack}).low <= way->ohm.high)
    return std::nullopt;
  for (std::size_t& leg : way->legs) leg = original[leg];
  return way;
}

// What is disconnected may be the way round itself: the links of a motor in delta.
bool may_be_parted(const Reading& reading) {
  return reading.test != nullptr && reading.test->disconnect_also && reading.test->expect.kind &&
         *reading.test->expect.kind == Expectation_kind::open;
}

constexpr std::string_view of_network =
    "no network reads more between two terminals than over a way round; correct one";
constexpr std::string_view of_wiper =
    "at one position of the wiper the whole reads no more than the halves; read all at one, or correct one";

// A way round that a reading exceeds.
struct Broken {
  Severity severity;
  std::string message;
  std::set<std::string> legs; // by which it is known: tests by their ids, pairs by their ends
  std::vector<std::pair<Node_id, std::string>> related;
};
using Broken_at = std::map<Node_id, std::vector<Broken>>;

void add(std::vector<Broken>& all, Broken broken) {
  const auto same =
      std::find_if(all.begin(), all.end(), [&](const Broken& b) { return b.legs == broken.legs; });
  if (same == all.end())
    all.push_back(std::move(broken));
  else if (broken.severity > same->severity)
    *same = std::move(broken);
}

std::string known_as(const Subject& subject, const Reading& reading) {
  if (reading.test == nullptr) return ends_of(reading);
  const auto& tests = subject.profile()->tests;
  return std::string(tests.items[tests.position_of(*reading.test)].id);
}

Broken broken(const Subject& subject, const Readings& readings, const Reading& direct, const Way_round& way,
              bool certain, std::string_view why) {
  Broken found{certain && subject.document.complete() ? Severity::error : Severity::warning, {}, {}, {}};
  std::vector<std::string> legs;
  for (const std::size_t leg : way.legs) {
    const Reading& reading = readings.all[leg];
    legs.push_back(ends_of(reading));
    found.legs.insert(known_as(subject, reading));
    found.related.emplace_back(reading.node, legs.back());
  }
  const auto [reading, most] = apart(direct.ohm.low, way.ohm.high);
  const std::string least = fmt::format("{} is at least {}", ends_of(direct), reading);
  found.message =
      legs.size() == 1
          ? fmt::format("{} here and at most {} in another pair; keep the one that is right", least, most)
          : fmt::format("{}, but {} add up to at most {}{}: {}", least, listed(legs), most,
                        readings.brought_to_20 ? ", all brought to 20 °C" : "", why);
  return found;
}

// Of each reading the ways round that have no leg in common: what breaks without those that are known is new.
void check_readings(const Subject& subject, const Readings& readings, std::string_view why,
                    Broken_at& found) {
  if (readings.all.size() < 2 || !may_break(readings)) return;
  const std::vector<Between> bands = numbered(readings);
  std::vector<Between> without_leads; // seldom asked for
  for (std::size_t i = 0; i < bands.size(); ++i) {
    const Reading& direct = readings.all[i];
    if (!may_break(bands, i)) continue;
    if (without_leads.empty()) without_leads = numbered(readings, true);
    const double leads = bands[i].ohm.low - without_leads[i].ohm.low;
    std::set<std::size_t> gone;
    for (std::size_t ways = 0; ways < most_contradictions; ++ways) {
      const auto is_left = [&](std::size_t leg) { return gone.count(leg) == 0; };
      const auto certain = broken_way(readings, bands, i, leads, [&](std::size_t leg) {
        return is_left(leg) && taken_alike(direct, readings.all[leg]);
      });
      const auto way = certain ? certain : broken_way(readings, bands, i, 0, is_left);
      if (!way || (!certain && may_be_parted(direct))) break;
      add(found[direct.node], broken(subject, readings, direct, *way, certain.has_value(), why));
      gone.insert(way->legs.begin(), way->legs.end());
    }
  }
}

// One is told of each reading, the worst.
void report(Node_id node, const std::vector<Broken>& all, Sink& sink) {
  for (const Broken& broken : all) {
    know_by(sink.report_as(broken.severity, node, broken.message),
            fmt::format("{}", fmt::join(broken.legs, ", ")));
    for (const auto& [leg, ends] : broken.related) sink.relate(leg, ends);
  }
  if (all.size() > 1) sink.tell_the_worst(all.size());
}

void check(const Subject& subject, Sink& sink) {
  Broken_at found;
  for (const Resolved_component& component : subject.resolved.components) {
    if (component.is(Component_kind::electronic)) continue; // readings through electronics are no resistances
    const auto why = component.is(Component_kind::potentiometer) ? of_wiper : of_network;
    for (const Readings& readings : readings_of(subject, component))
      check_readings(subject, readings, why, found);
  }
  for (const Readings& readings : readings_at_plugs(subject))
    check_readings(subject, readings, of_network, found);
  for (const auto& [node, all] : found) report(node, all, sink);
}

}

extern const Rule triangle_broken = {
    .family = Family::network,
    .severity = Severity::error,
    .summary = "Two terminals read more than the way round over a third.",
    .check = check,
    .goes_by_order = true,
};

}
