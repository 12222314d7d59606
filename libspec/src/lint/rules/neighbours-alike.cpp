#include <algorithm>
#include <tuple>
#include <utility>
#include <vector>

#include "lint/contacts.h"
#include "lint/rule.h"
#include "lint/worked_out.h"
#include "text/small_letters.h"

namespace ohmlore::rules {
namespace {

// One part read at a withdrawn plug.
struct Neighbour {
  const Connector* connector = nullptr;
  const Test* test = nullptr;
  Text id, test_id;
  std::size_t first = 0, last = 0; ///< places of its contacts in the connector
  Interval ohm;                    ///< healthy, at `kelvin`
  double kelvin = 0;
};

// Place of a pin in its connector: its number where it is one, else its place among all by id.
std::optional<std::size_t> place_of(const Connector& connector, Text pin) {
  std::size_t number = 0;
  const bool digits = !pin.empty() && std::all_of(pin.begin(), pin.end(), [&](char c) {
    number = number * 10 + static_cast<std::size_t>(c - '0');
    return is_digit(c);
  });
  if (digits) return number;
  if (connector.pins.find(pin) == nullptr) return std::nullopt;
  return 1 + static_cast<std::size_t>(std::count_if(connector.pins.begin(), connector.pins.end(),
                                                    [&](const auto& other) { return other.id < pin; }));
}

// What moves only with its own part tells which it is.
bool answers(const Test& test) {
  if (!test.response.kind) return false;
  return *test.response.kind != Response_kind::steady_when_moved &&
         *test.response.kind != Response_kind::rises_to_open;
}

std::optional<Interval> healthy_at(const Subject& subject, const Test& test, double kelvin) {
  if (test.expect) {
    if (test.expect.at && !kelvin_interval(*test.expect.at).contains(kelvin)) return std::nullopt;
    const Expectation& e = test.expect;
    if (e.kind && *e.kind == Expectation_kind::both_directions && e.min && e.max && e.min->si <= e.max->si)
      return Interval{e.min->si, e.max->si};
    return expected(subject, test);
  }
  const auto model = relied_on(subject, test);
  return model ? model_interval(**model, {kelvin, kelvin}) : std::nullopt;
}

// By connector and component: the test that reads it alone, at one place of the connector; of several the
// first by id.
std::vector<Neighbour> neighbours(const Subject& subject) {
  std::vector<Neighbour> found;
  found.reserve(subject.resolved.of_tests.size());
  each_test(subject, [&](Text id, const Test& test) {
    if (!test.component || !test.side || *test.side != Side::at_board_plug || test.probes.size() != 2) return;
    const Value<Contact>&a = test.probes[0], &b = test.probes[1];
    if (!a || !b || a->connector != b->connector || *a == *b) return;
    const Connector* connector = subject.resolved.connector(a->connector);
    if (connector == nullptr) return;
    const auto from = place_of(*connector, a->pin), to = place_of(*connector, b->pin);
    constexpr double room = zero_celsius + 20;
    const double kelvin = test.expect.at ? kelvin_interval(*test.expect.at).middle() : room;
    const auto ohm = healthy_at(subject, test, kelvin);
    if (from && to && ohm)
      found.push_back(
          {connector, &test, *test.component, id, std::min(*from, *to), std::max(*from, *to), *ohm, kelvin});
  });
  std::sort(found.begin(), found.end(), [](const Neighbour& a, const Neighbour& b) {
    return std::tie(a.connector, a.id, a.test_id) < std::tie(b.connector, b.id, b.test_id);
  });
  const auto same_part = [](const Neighbour& a, const Neighbour& b) {
    return a.connector == b.connector && a.id == b.id;
  };
  found.erase(std::unique(found.begin(), found.end(), same_part), found.end());
  return found;
}

// Their tests, or one that compares them, tell which is which.
bool told_apart(const Subject& subject, const Neighbour& a, const Neighbour& b) {
  bool apart = false;
  each_test(subject, [&](Text, const Test& test) {
    if (!test.component) return;
    const bool of_a = *test.component == a.id, of_b = *test.component == b.id;
    const bool twins =
        test.expect.with && ((of_a && *test.expect.with == b.id) || (of_b && *test.expect.with == a.id));
    apart = apart || twins || ((of_a || of_b) && answers(test));
  });
  return apart;
}

void check(const Subject& subject, Sink& sink) {
  const std::vector<Neighbour> found = neighbours(subject);
  for (auto first = found.begin(), end = first; first != found.end(); first = end) {
    end =
        std::find_if(first, found.end(), [&](const Neighbour& n) { return n.connector != first->connector; });
    std::vector<std::pair<const Neighbour*, const Neighbour*>> alike;
    constexpr std::size_t most = 100; // more than any plug has, but not all pairs of a document made to harm
    std::size_t pairs = 0;
    for (auto a = first; a != end; ++a)
      for (auto b = a + 1; b != end; ++b) {
        // Side by side, or with one contact in common.
        const bool adjacent =
            a->last <= b->first ? b->first - a->last <= 1 : b->last <= a->first && a->first - b->last <= 1;
        if (!adjacent) continue;
        const auto same_time = healthy_at(subject, *b->test, a->kelvin);
        if (!same_time || !same_time->overlaps(a->ohm) || told_apart(subject, *a, *b)) continue;
        if (pairs++ < most) alike.emplace_back(&*a, &*b);
      }
    const auto say = [&](std::size_t pair, const std::string& more) {
      const auto [one, other] = alike[pair];
      return fmt::format("{} reads {} and {} beside it {} at {}: leads or wires exchanged between them pass "
                         "both tests{}; state a `response`, so that the part that is warmed or moved shows "
                         "which it is, or compare them as a `pair`",
                         one->id, ohm(one->ohm), other->id,
                         ohm(*healthy_at(subject, *other->test, one->kelvin)), celsius(one->kelvin), more);
    };
    for (std::size_t pair = 0; pair < alike.size(); ++pair) {
      Finding& finding = sink.report(first->connector->node, say(pair, ""));
      const auto [one, other] = alike[pair];
      finding.value = fmt::format("{}, {}", one->id, other->id);
      sink.relate(one->test->node, "the one");
      sink.relate(other->test->node, "the other");
    }
    if (pairs > 1)
      sink.tell_as_one(alike.size(), say(0, fmt::format(" (and {} more such {} of this connector)", pairs - 1,
                                                        pairs == 2 ? "pair" : "pairs")));
  }
}

}

extern const Rule neighbours_alike = {
    .family = Family::meter,
    .severity = Severity::note,
    .summary = "Two parts beside each other on one plug read alike, so that an exchange of leads passes.",
    .check = check,
    .goes_by_absence = true,
};

}
