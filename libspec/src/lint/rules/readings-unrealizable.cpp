#include <algorithm>
#include <set>
#include <tuple>

#include "lint/network.h"

namespace ohmlore::rules {
namespace {

constexpr std::size_t most_terminals = 8; // the work grows fast beyond
constexpr std::size_t most_sets = 500;    // of a group: its terminals may have many that are complete

bool joins(const Between& reading, std::size_t a, std::size_t b) {
  return (reading.a == a && reading.b == b) || (reading.a == b && reading.b == a);
}

// The largest sets of terminals that each have a reading to each other: those of four to eight (Bron and
// Kerbosch, Comm. ACM 16, 1973, 575-577; what is next to a pivot is found with it).
void complete_sets(const std::vector<Between>& readings, const std::vector<std::size_t>& set,
                   std::vector<std::size_t> candidates, std::vector<std::size_t> done,
                   std::vector<std::vector<std::size_t>>& found) {
  const auto near = [&](std::size_t terminal, std::size_t other) {
    return std::any_of(readings.begin(), readings.end(),
                       [&](const Between& r) { return joins(r, terminal, other); });
  };
  const auto all_near = [&](std::size_t terminal, std::vector<std::size_t> others) {
    std::erase_if(others, [&](std::size_t other) { return !near(terminal, other); });
    return others;
  };
  if (candidates.empty() && done.empty() && set.size() >= 4 && set.size() <= most_terminals)
    found.push_back(set);
  if (candidates.empty() || found.size() == most_sets) return;
  const std::size_t pivot = candidates.back();
  for (const std::size_t next : std::vector<std::size_t>(candidates)) {
    if (near(pivot, next)) continue;
    auto larger = set;
    larger.push_back(next);
    complete_sets(readings, larger, all_near(next, candidates), all_near(next, done), found);
    candidates.erase(std::find(candidates.begin(), candidates.end(), next));
    done.push_back(next);
  }
}

struct Set {
  std::vector<std::size_t> readings; // positions in the group
  std::vector<Text> names;           // of its terminals
  bool alike = true;
};

// By place, severity, and the terminals against which it is known there.
using Told = std::set<std::tuple<Node_id, Severity, std::string>>;

// False where that was told.
bool report(const Readings& group, const Set& set, const Unrealizable& found, bool certain, Told& told,
            Sink& sink) {
  auto shown = found.terminals;
  std::sort(shown.begin(), shown.end());
  std::vector<Text> terminals;
  for (const std::size_t terminal : shown) terminals.push_back(set.names[terminal]);
  std::vector<const Reading*> involved;
  for (const std::size_t i : set.readings) {
    const Reading& reading = group.all[i];
    const auto in = [&](Text end) {
      return std::find(terminals.begin(), terminals.end(), end) != terminals.end();
    };
    if (in(reading.from) && in(reading.to)) involved.push_back(&reading);
  }
  const auto direct = std::find_if(involved.begin(), involved.end(), [&](const Reading* reading) {
    return reading->joins(set.names[found.a], set.names[found.b]);
  });
  const Severity severity = certain ? Severity::error : Severity::warning;
  const std::string all = fmt::format("{}", fmt::join(terminals, ", "));
  if (direct == involved.end() || !told.emplace((*direct)->node, severity, all).second) return false;
  const auto [least, most] = apart((*direct)->ohm.low, found.most.value_or(0));
  const std::string at_20 = group.brought_to_20 ? ", all brought to 20 °C" : "";
  know_by(sink.report_as(
              severity, (*direct)->node,
              found.most
                  ? fmt::format("{} is at least {}, but the other readings among {} allow at most {}{}: no "
                                "network of resistors gives all of them; correct one",
                                ends_of(**direct), least, listed(terminals), most, at_20)
                  : fmt::format("no network of resistors gives all {} readings among {}{}: between {} and {} "
                                "less than nothing would have to conduct; correct one",
                                involved.size(), listed(terminals), at_20, (*direct)->from, (*direct)->to)),
          all);
  for (const Reading* reading : involved)
    if (reading != *direct)
      sink.relate(reading->node, fmt::format("{}: {}", ends_of(*reading), ohm(reading->ohm)));
  return true;
}

// The two terminals between which less than nothing would conduct, and whether that was told.
struct Found {
  std::size_t a = 0, b = 0;
  bool told = false;
};

std::optional<Found> check_set(const Readings& group, const std::vector<std::size_t>& terminals, Told& told,
                               Sink& sink) {
  const auto names = group.terminals();
  const auto number = [&](std::size_t terminal) {
    return static_cast<std::size_t>(std::find(terminals.begin(), terminals.end(), terminal) -
                                    terminals.begin());
  };
  Set set;
  for (const std::size_t terminal : terminals) set.names.push_back(names[terminal]);
  const auto renumbered = [&](bool without_leads) {
    std::vector<Between> some;
    for (const Between& reading : numbered(group, without_leads))
      if (number(reading.a) < terminals.size() && number(reading.b) < terminals.size())
        some.push_back({number(reading.a), number(reading.b), reading.ohm});
    return some;
  };
  const auto all = numbered(group);
  for (std::size_t i = 0; i < all.size(); ++i)
    if (number(all[i].a) < terminals.size() && number(all[i].b) < terminals.size()) set.readings.push_back(i);
  set.alike = std::all_of(set.readings.begin(), set.readings.end(), [&](std::size_t i) {
    return taken_alike(group.all[set.readings.front()], group.all[i]);
  });
  if (group.of_plug && std::all_of(set.readings.begin(), set.readings.end(), [&](std::size_t i) {
        return group.all[i].component == group.all[set.readings.front()].component;
      }))
    return std::nullopt; // among the readings of the component
  const auto found = find_unrealizable(renumbered(false), terminals.size());
  if (!found || found->terminals.size() < 4) return std::nullopt; // a triangle is for triangle-broken
  const auto surely = set.alike ? find_unrealizable(renumbered(true), terminals.size()) : std::nullopt;
  const Unrealizable& shown = surely ? *surely : *found;
  return Found{terminals[shown.a], terminals[shown.b],
               report(group, set, shown, surely.has_value(), told, sink)};
}

// Then without either of the two terminals, so that a baseline that knows the first does not hide another.
// All of them may come of one reading that is wrong. `most` such sets are looked at, here and from here on.
void check_smaller_too(const Readings& group, std::vector<std::size_t> terminals, std::size_t& most,
                       Told& told, Sink& sink) {
  std::size_t count = 0;
  std::set<std::vector<std::size_t>> sets = {terminals};
  std::vector<std::vector<std::size_t>> left = {std::move(terminals)};
  while (!left.empty()) {
    const std::vector<std::size_t> set = std::move(left.back());
    left.pop_back();
    const auto found = check_set(group, set, told, sink);
    if (!found) continue;
    count += found->told;
    for (const std::size_t end : {found->a, found->b}) {
      std::vector<std::size_t> smaller = set;
      std::erase(smaller, end);
      if (most == 0 || smaller.size() < 4 || !sets.insert(smaller).second) continue;
      left.push_back(std::move(smaller));
      --most;
    }
  }
  if (count > 1) sink.tell_the_worst(count);
}

void check_readings(const Readings& readings, Sink& sink) {
  if (readings.all.size() < 6) return;
  std::vector<Between> finite = numbered(readings);
  std::erase_if(finite, [](const Between& r) { return std::isinf(r.ohm.high) || !(r.ohm.low > 0); });
  std::vector<std::size_t> all(readings.terminals().size());
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
  constexpr std::size_t most_of_a_group = 24; // the sets of a group may be many
  if (finite.size() < 6 || all.size() > most_of_a_group) return;
  std::vector<std::vector<std::size_t>> sets;
  complete_sets(finite, {}, all, {}, sets);
  Told told;
  std::size_t most = most_contradictions;
  for (auto& terminals : sets) {
    std::sort(terminals.begin(), terminals.end());
    check_smaller_too(readings, terminals, most, told, sink);
  }
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components) {
    if (component.is(Component_kind::electronic)) continue;
    for (const Readings& readings : readings_of(subject, component)) check_readings(readings, sink);
  }
  for (const Readings& readings : readings_at_plugs(subject)) check_readings(readings, sink);
}

}

extern const Rule readings_unrealizable = {
    .family = Family::network,
    .severity = Severity::error,
    .summary = "The readings among four terminals or more are those of no network of resistors.",
    .check = check,
    .goes_by_order = true,
};

}
