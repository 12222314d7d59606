#include "ohmlore/judge.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <numeric>

#include "judge/limits.h"
#include "judge/measuring.h"
#include "judge/modes.h"
#include "lint/contacts.h"
#include "lint/meter.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "model/names.h"
#include "ohmlore/cautions.h"
#include "units/outward.h"

namespace ohmlore {
namespace {

using namespace rules;

// A small sensor in still air warms by 1 K for 1.5 mW (read); a meter on ohms drives at most 0.5 V and 0.5 mA
// through it (common practice, no source).
double self_heating(double ohm) {
  const double watt = std::min(0.5 * 0.5 / std::max(ohm, 1.0), 0.5e-3 * 0.5e-3 * ohm);
  return watt / 1.5e-3;
}

Limits_at service_of(const Expected& expected) {
  return [&expected](double x) { return expected.service_beside(x); };
}
Limits_at manufacturing_of(const Expected& expected) {
  return [&expected](double x) { return expected.manufacturing_beside(x); };
}

// Whether the model speaks of where it is asked: of some temperature of a room.
bool speaks_of(const Expected& expected, const Known& known) {
  const auto& rows = expected.rows_reach;
  const double x = !known.room ? known.x
                   : rows      ? std::clamp(rows->low, known.room->low, known.room->high)
                               : known.room->middle();
  return bool(expected.service_at(x));
}

// A sensor changes with temperature also where nothing says how much.
void hold_where_stated(Expected& expected, const Test& test) {
  if (expected.model || !expected_interval(test.expect) || !test.expect.at ||
      !is_temperature_sensor(*expected.component))
    return;
  expected.varies = true;
  expected.rows_reach = kelvin_interval(*test.expect.at);
}

// In ohm per kelvin.
double slope_at(const Expected& expected, double kelvin, double step) {
  const auto left = expected.nominal_beside(kelvin - step), right = expected.nominal_beside(kelvin + step);
  return left && right ? (*right - *left) / (2 * step) : 0;
}

std::vector<Contribution> budget_of(const Known& known, const Expected& expected) {
  std::vector<Contribution> budget;
  const double slope = known.about.empty() ? 0 : slope_at(expected, known.x, 0.01);
  const auto add = [&](const Doubt& doubt, bool kelvin_unit, double sensitivity) {
    const double u =
        standard_uncertainty({doubt.half_width, Distribution::rectangular}) * std::fabs(sensitivity);
    if (u > 0) budget.push_back({doubt.from, doubt.half_width, kelvin_unit, sensitivity, u, 0});
  };
  for (const Doubt& doubt : known.own) add(doubt, false, 1);
  for (const Doubt& doubt : known.about) add(doubt, true, slope);
  double variance = 0;
  for (const Contribution& one : budget) variance += one.ohm * one.ohm;
  for (Contribution& one : budget) one.share = variance > 0 ? one.ohm * one.ohm / variance : 0;
  std::stable_sort(budget.begin(), budget.end(),
                   [](const Contribution& a, const Contribution& b) { return a.share > b.share; });
  return budget;
}

double combined(const std::vector<Contribution>& budget) {
  double variance = 0;
  for (const Contribution& one : budget) variance += one.ohm * one.ohm;
  return std::sqrt(variance);
}

// The twin instead of a thermometer: what it reads says how warm both are, or how much.
std::optional<Expected> twin_limits(const Resolved& resolved, const Test& test, Expected expected,
                                    const Judge_request& request, const Means& means, Known& known,
                                    std::string& problem) {
  const Expectation& expect = test.expect;
  if (!expect.largest_difference || !expect.with) {
    problem = "the test does not say how far the two may differ: mend the profile, `ohmlore lint` says where";
    return std::nullopt;
  }
  if (!request.twin) {
    problem =
        fmt::format("this test compares with {}: give its reading too, with --twin", quoted(*expect.with));
    return std::nullopt;
  }
  const Known twin = known_of(*request.twin, means);
  if (request.twin->over_range) {
    problem = fmt::format("{} reads OL itself: judge it by a test of its own", quoted(*expect.with));
    return std::nullopt;
  }
  const Tolerance& most = *expect.largest_difference;
  const double width = std::max(most.minus, most.plus);
  expected.words = fmt::format("at most {} from {}", describe(width, most.dimension), *expect.with);
  expected.basis = Limit_basis::twin;
  expected.stated_at.reset();
  double half_width = 0;
  for (const Doubt& doubt : twin.own) half_width += doubt.half_width;
  if (most.dimension != Dimension::temperature_difference) {
    known.x = twin.ohm;
    known.about = {{Contributor::twin, half_width}};
    const double share = most.relative() ? width : 0, ohms = most.relative() ? 0 : width;
    expected.model = {};
    expected.varies = false;
    expected.service = {{share + ohms, share + ohms, most.dimension}, 1};
    return expected;
  }
  const Resolved_component* other = resolved.component(*expect.with);
  const auto curve = other != nullptr ? model_expectation(resolved, *other, test) : std::nullopt;
  const auto kelvin = curve ? curve->kelvin_of(twin.ohm) : std::nullopt;
  if (!kelvin || !expected.model) {
    problem = !kelvin && curve
                  ? fmt::format("{} of {} means no temperature on its curve: judge it by a test of its own",
                                shown_ohm(twin.ohm), quoted(*expect.with))
                  : fmt::format("a difference in kelvin needs the curves of both {} and {}",
                                quoted(expected.component->id), quoted(*expect.with));
    return std::nullopt;
  }
  const double slope = std::fabs(slope_at(*curve, *kelvin, 0.05));
  known.x = *kelvin;
  known.about = {{Contributor::twin, slope > 0 ? half_width / slope : 0}};
  expected.varies = true;
  expected.service = {{width, width, Dimension::temperature_difference}, 1};
  return expected;
}

std::string contributor_words(Contributor from) {
  switch (from) {
  case Contributor::meter: return "the meter";
  case Contributor::rounding: return "the rounding of the written reading";
  case Contributor::leads: return "the leads";
  case Contributor::thermometer: return "the thermometer";
  case Contributor::place: return "where the temperature was taken";
  case Contributor::running: return "the heat left from running";
  case Contributor::self_heating: return "the meter's current, which warms the sensor";
  case Contributor::twin: return "the reading of the twin";
  }
  return {};
}

// By how much one doubt would have to shrink before the reading is decided; empty where that does not do.
std::optional<double> enough(const Known& known, const Limits_at& limits, const Means& means,
                             Contributor from) {
  const auto decided = [&](double factor) {
    Known better = known;
    for (auto* doubts : {&better.own, &better.about})
      for (Doubt& doubt : *doubts)
        if (doubt.from == from) doubt.half_width *= factor;
    const auto found = probable(better, limits);
    return found && decide(*found, means.rule) != Conformity::too_close;
  };
  if (!decided(1e-3)) return std::nullopt;
  double good = 1e-3, bad = 1;
  for (int i = 0; i < 20; ++i) (decided(std::midpoint(good, bad)) ? good : bad) = std::midpoint(good, bad);
  return good;
}

// Beyond the end of which range OL would be decided, all that may be.
double end_that_decides(const Known& known, const Limits_at& limits, const Means& means) {
  const auto decided = [&](double end) {
    Known higher = known_of({end, 0, true}, means);
    higher.x = known.x, higher.about = known.about, higher.room = known.room;
    const auto found = probable(higher, limits);
    return found && decide(*found, means.rule) != Conformity::too_close;
  };
  double low = *known.beyond, high = low;
  while (!decided(high) && high < 1e12) low = high, high *= 2;
  for (int i = 0; i < 12; ++i) (decided(std::midpoint(low, high)) ? high : low) = std::midpoint(low, high);
  return high;
}

void say_what_settles(Judgement& judgement, const Known& known, const Limits_at& limits, const Means& means,
                      const Test& test, const Expected& expected) {
  auto& settle = judgement.settle;
  if (known.beyond) {
    settle.push_back(
        fmt::format("switch the meter to a range that ends above {}",
                    shown_rounded(rounded(end_that_decides(known, limits, means), Towards::more, 3))));
    return;
  }
  if (known.room) {
    settle.push_back("take the temperature of the part, and give it with --temperature \"20 °C ± 1 K\"");
    return;
  }
  bool any = false;
  for (const Contribution& one : judgement.budget) {
    if (one.share < 0.05) break;
    const auto factor = enough(known, limits, means, one.from);
    if (!factor) continue;
    any = true;
    // With just what is shown it is decided: less than that is needed, never more.
    const double needed = rounded(one.half_width * *factor, Towards::less, 3);
    switch (one.from) {
    case Contributor::meter:
      settle.push_back(fmt::format("a meter that is within ± {} here (this one: ± {})", shown_rounded(needed),
                                   shown_ohm(one.half_width)));
      break;
    case Contributor::rounding: settle.push_back("write all digits that the display shows"); break;
    case Contributor::leads:
      settle.push_back(
          fmt::format("measure the leads, tips together, to within ± {}, or null them: --leads 0",
                      shown_rounded(needed)));
      break;
    case Contributor::thermometer:
      settle.push_back(fmt::format("a thermometer that is within ± {} (this one: ± {})", kelvin(needed),
                                   kelvin(one.half_width)));
      break;
    case Contributor::place:
      settle.push_back("take the temperature beside the element, in the same water or air stream");
      break;
    case Contributor::running:
      settle.push_back("wait until the part has cooled to the room, and take both again");
      break;
    case Contributor::self_heating:
      settle.push_back("a range with less current, and a reading at once");
      break;
    case Contributor::twin: settle.push_back("a finer meter on both"); break;
    }
  }
  if (!any && judgement.budget.size() > 1)
    settle.push_back(expected.varies
                         ? "several of them together: cool to the room, a finer meter and thermometer, leads "
                           "nulled"
                         : "several of them together: a finer meter, and leads nulled");
  if (test.side && *test.side == Side::at_board_plug)
    settle.push_back("measure on the part itself too, and give it with --at-part");
  if (expected.varies)
    settle.push_back("measure again at another temperature: a part that drifted is off there too");
}

std::string contacts_of(const Test& test) {
  std::string out;
  for (const Value<Contact>& probe : test.probes)
    if (probe) out += (out.empty() ? "" : " to ") + text_of(*probe);
  return out;
}

// "X3.2 to X3.3" for "X3.3 to X3.2"
std::string turned(std::string_view contacts) {
  const std::size_t at = contacts.find(" to ");
  return at == std::string_view::npos
             ? std::string(contacts)
             : fmt::format("{} to {}", contacts.substr(at + 4), contacts.substr(0, at));
}

// What lies on this connector and would read so: by its own test, or between two of its contacts.
struct Others {
  const Resolved& resolved;
  const Test& test;
  const Known& known;
  const Judge_request& request;
  const Means& means;
  double own_probability;
  std::vector<Other_fit> fits;

  bool on_this_connector(const Contact& contact) const {
    return std::any_of(test.probes.begin(), test.probes.end(),
                       [&](const Value<Contact>& own) { return own && own->connector == contact.connector; });
  }

  void look_at(const Test& other, Text id, const std::optional<Expected>& expected) {
    if (!expected || expected->basis == Limit_basis::twin) return;
    if (rules::same_ends(other.probes, test.probes)) return;
    Known there = known;
    set_temperature(there, *expected, request, means);
    const auto found = probable(there, service_of(*expected));
    const auto limits = expected->service_at(there.room ? there.room->middle() : there.x);
    // Everything that is open reads alike, and everything that is closed: that says nothing of an exchange.
    if (!found || !limits || std::isinf(limits->high) || limits->high <= 5) return;
    if (found->most.within < 0.5 || found->most.within <= own_probability) return;
    const std::string contacts = contacts_of(other);
    const bool named = std::any_of(fits.begin(), fits.end(), [&](const Other_fit& fit) {
      return fit.probes == contacts || fit.probes == turned(contacts);
    });
    if (!named)
      fits.push_back({std::string(expected->component->id), std::string(id), contacts, found->most.within});
  }

  void look_at_tests() {
    for (const auto& entry : resolved.document->profile()->tests) {
      const Test& other = entry.value;
      const bool near =
          std::any_of(other.probes.begin(), other.probes.end(),
                      [&](const Value<Contact>& probe) { return probe && on_this_connector(*probe); });
      std::string problem;
      if (near) look_at(other, entry.id, expected_of(resolved, other, false, problem));
    }
  }

  void look_at_contacts() {
    constexpr std::size_t most = 8; // no part has more that are read against each other
    for (const Resolved_component& component : resolved.components) {
      const std::size_t count = std::min(component.contacts.size(), most);
      for (std::size_t i = 0; i < count; ++i)
        for (std::size_t j = i + 1; j < count; ++j) {
          if (!on_this_connector(*component.contacts[i]) || !on_this_connector(*component.contacts[j]))
            continue;
          Value<Contact> ends[] = {component.contacts[i], component.contacts[j]};
          Test between;
          between.probes = {ends, 2, 1};
          look_at(between, {}, model_expectation(resolved, component, between));
        }
    }
  }
};

std::vector<Other_fit> others_of(const Resolved& resolved, const Test& test, const Known& known,
                                 const Judge_request& request, const Means& means, double own_probability) {
  Others others{resolved, test, known, request, means, own_probability, {}};
  others.look_at_tests();
  others.look_at_contacts();
  std::stable_sort(others.fits.begin(), others.fits.end(),
                   [](const Other_fit& a, const Other_fit& b) { return a.probability > b.probability; });
  if (others.fits.size() > 4) others.fits.resize(4);
  return others.fits;
}

void say_what_is_meant(Judgement& judgement, const Known& known, const Expected& expected) {
  if (known.beyond || !expected.model || !is_temperature_sensor(*expected.component, *expected.model)) return;
  judgement.means = expected.kelvin_of(known.ohm);
  double half_width = 0;
  for (const Doubt& doubt : known.own) half_width += doubt.half_width;
  const Interval read = {std::max(known.ohm - half_width, 1e-3), known.ohm + half_width};
  judgement.means_between =
      model_temperatures(*expected.model, read, expected.kelvin_range(), Taken::literally, expected.between);
  if (judgement.means && judgement.temperature)
    judgement.deviation = *judgement.means - judgement.temperature->kelvin;
}

// How far meter and leads may be off.
double half_width_of(const Reading& reading, const Means& means) {
  double half_width = 0;
  for (const Doubt& doubt : known_of(reading, means).own) half_width += doubt.half_width;
  return half_width;
}

// No part reads less than the leads to it.
bool is_below_leads(const Reading& reading, const Means& means) {
  constexpr double slack = 1e-9; // ohm: what the computer rounds
  return !reading.over_range && reading.ohm < means.leads.ohm - half_width_of(reading, means) - slack;
}

std::vector<const Reading*> readings_of(const Judge_request& request) {
  std::vector<const Reading*> readings = {&request.reading};
  for (const auto* reading : {&request.reverse, &request.twin, &request.at_part, &request.after})
    if (*reading) readings.push_back(&**reading);
  return readings;
}

// What limits the answer, and what it does not say.
void remark(const Resolved& resolved, Judgement& judgement, const Test& test, const Expected& expected,
            const Known& known, const Judge_request& request, const Means& means) {
  auto& remarks = judgement.remarks;
  const bool within = judgement.result == Conformity::within;
  for (const std::string& one : expected.remarks) remarks.push_back(one);
  if (known.room)
    remarks.push_back(
        fmt::format("no temperature of the part was given: judged for all of {}, so that only what no "
                    "part in there reads is outside",
                    celsius(*known.room)));
  else if (request.temperature && expected.varies &&
           request.temperature->place == Temperature_place::unstated)
    remarks.push_back("where the temperature was taken is not said: it is taken for that of the part itself");
  if (judgement.service.result == Conformity::outside && judgement.means && judgement.temperature &&
      expected.kelvin_range().contains(*judgement.means))
    remarks.push_back(fmt::format("a healthy one would read so at {}: make sure that the part is at {}, and "
                                  "not warmed or cooled by what it "
                                  "sits on, before it is condemned",
                                  celsius(*judgement.means), celsius(judgement.temperature->kelvin)));
  const Interval asked = known.room.value_or(Interval{known.x, known.x});
  if (expected.rows_reach && expected.varies && !expected.rows_reach->contains(asked) &&
      (!known.room || is_temperature_sensor(*expected.component)))
    remarks.push_back(fmt::format("{} states {} only: taken for {}",
                                  expected.model ? "its model" : "the test", celsius(*expected.rows_reach),
                                  celsius(asked)));
  for (std::string& doubt : doubts_at(expected, asked)) remarks.push_back(std::move(doubt));
  if (request.temperature && !expected.varies && test.expect.at) {
    const Interval at = kelvin_interval(*test.expect.at);
    if (!at.contains(request.temperature->kelvin))
      remarks.push_back(
          fmt::format("the limits hold at {}, not at {}", celsius(at), celsius(request.temperature->kelvin)));
  }
  if (judgement.reading.over_range && request.reading.ohm == 0)
    remarks.push_back(
        fmt::format("the range of the OL was not given: taken for the meter's highest, which ends at {}",
                    shown_ohm(judgement.reading.ohm)));
  const auto readings = readings_of(request);
  const auto below = std::find_if(readings.begin(), readings.end(),
                                  [&](const Reading* reading) { return is_below_leads(*reading, means); });
  if (below != readings.end())
    remarks.push_back(fmt::format("{} is less than the {} that leads are taken for where they were not "
                                  "measured: it counts as 0 Ω. Were they nulled? Then say so: --leads 0",
                                  shown_ohm((*below)->ohm), shown_ohm(means.leads.ohm)));
  if (!means.leads_stated && !judgement.budget.empty() && !known.beyond)
    for (const Contribution& one : judgement.budget)
      if (one.from == Contributor::leads && one.share > 0.1)
        remarks.push_back(fmt::format("the leads were not measured: taken for {} ± {}",
                                      shown_ohm(means.leads.ohm), shown_ohm(means.leads.half_width)));
  if (judgement.manufacturing && judgement.manufacturing->result == Conformity::too_close &&
      judgement.manufacturing->best && *judgement.manufacturing->best < 1 - means.rule.false_acceptance &&
      !judgement.budget.empty())
    remarks.push_back(fmt::format("whether the part is still as made ({}) cannot be decided here: even a "
                                  "reading in the middle of {} would be within "
                                  "with probability {} only, because of {}",
                                  expected.manufacturing_words, shown_ohm(judgement.manufacturing->ohm),
                                  shown_probability(*judgement.manufacturing->best),
                                  contributor_words(judgement.budget[0].from)));
  const Value<Expectation_kind>& kind = test.expect.kind;
  if (kind && *kind == Expectation_kind::open && within)
    remarks.push_back("no gross leakage seen; an ohmmeter can prove leakage, never its absence");
  if (kind && *kind == Expectation_kind::not_short && within)
    remarks.push_back("not a short; it says nothing more");
  if (kind && *kind == Expectation_kind::smooth_sweep)
    remarks.push_back("that it moved evenly is seen by eye, not in this number");
  if (std::any_of(judgement.modes.begin(), judgement.modes.end(), [](const Mode_answer& one) {
        return one.mode == Mode::protector_open &&
               (one.verdict == Mode_verdict::fits || one.verdict == Mode_verdict::undecided);
      }))
    remarks.emplace_back(cool_and_read_again);
  if (expected.component->is(Component_kind::electronic))
    remarks.push_back("electronics: no dead test shows them to be good");
  if (reads_wires_alone(resolved, test, judgement.test))
    remarks.push_back(fmt::format("the part is off: the failures are those of the wires, and nothing is said "
                                  "of {} itself",
                                  quoted(expected.component->id)));
  if (test.excludes.empty() && within)
    remarks.push_back("the profile does not say which failures this test excludes: none is");
  if (test.positive)
    remarks.push_back(fmt::format("the positive lead belongs on {}", text_of(*test.positive)));
  if (test.condition)
    remarks.push_back(fmt::format("holds in the condition {} only", quoted(*test.condition)));
  if (test.note) remarks.push_back(fmt::format("the profile notes of this test: {}", quoted(*test.note)));
  const bool contact = expected.basis == Limit_basis::state ||
                       (kind && (*kind == Expectation_kind::open || *kind == Expectation_kind::closed));
  const double read = known.ohm;
  const bool wanted_open = std::isinf(judgement.service.ohm.high);
  const double conducts = wanted_open ? conducts_up_to(*expected.component) : closed_at_most;
  const double opens = wanted_open ? open_at_least : broken_from(expected.component, judgement.service.ohm);
  if (contact && !known.beyond && read > conducts && read < opens &&
      judgement.result == Conformity::outside) {
    remarks.push_back(
        wanted_open ? "neither open nor closed: a path of high resistance, damp or leaking"
                    : "neither closed nor open: a high contact resistance, or another part in the path");
  }
  if (known.beyond && judgement.result == Conformity::outside && !std::isinf(judgement.service.ohm.high))
    remarks.push_back(
        "OL is also what leads off their contacts, or a tip on a lacquered pin, read: try once more");
}

// What one reading excludes is open again where another of the same test is not healthy.
void reopen(Judgement& judgement, std::string_view why) {
  for (Mode_answer& one : judgement.modes)
    if (one.verdict == Mode_verdict::excluded) one = {one.mode, Mode_verdict::undecided, std::string(why)};
}

// So it is where the reading on the part itself does not exclude it too; and what the plug alone looks like,
// the part has not.
void compare_with_part(Judgement& judgement, const std::vector<Mode_answer>& of_part) {
  for (Mode_answer& one : judgement.modes) {
    const auto there = std::find_if(of_part.begin(), of_part.end(),
                                    [&](const Mode_answer& answer) { return answer.mode == one.mode; });
    const bool known = there != of_part.end();
    if (one.verdict == Mode_verdict::excluded && known && there->verdict != Mode_verdict::excluded)
      one = {one.mode, Mode_verdict::undecided, fmt::format("on the part itself: {}", there->why)};
    else if (one.verdict == Mode_verdict::fits)
      one = {one.mode, known ? there->verdict : Mode_verdict::not_seen,
             known && there->verdict == Mode_verdict::fits ? there->why
                                                           : "read at the plug, and not on the part itself"};
  }
}

// Nothing that is open rises, as it conducted at first; and nothing that is stuck changes.
void exclude_by_answer(Judgement& judgement, const Test& test) {
  const auto exclude = [&](std::initializer_list<Mode> modes, std::string_view why) {
    for (Mode_answer& one : judgement.modes)
      if (one.verdict == Mode_verdict::undecided && names(test.excludes, one.mode) &&
          std::find(modes.begin(), modes.end(), one.mode) != modes.end())
        one = {one.mode, Mode_verdict::excluded, std::string(why)};
  };
  if (watches_it_rise(test)) exclude({Mode::open}, "with it the reading would not have risen");
  if (toggles(test))
    exclude({Mode::open, Mode::short_, Mode::stuck_open, Mode::stuck_closed},
            "with it the contact would not have changed");
}

// At rest a healthy one may read so: that fits no failure.
void excuse_at_rest(Judgement& judgement) {
  for (Mode_answer& one : judgement.modes)
    if (one.verdict == Mode_verdict::fits)
      one = {one.mode, Mode_verdict::undecided, "at rest a healthy one reads so too"};
}

// What a reading that is within says half of only.
std::string missing_half(const Resolved_component& component, const Test& test,
                         const Judge_request& request) {
  if (asks_both_directions(test) && !request.reverse)
    return "exchange the leads, and give that reading with --reverse: so far it is one direction only";
  if (watches_it_rise(test) && !request.after && !request.answered)
    return "judge what it reads at first, and give what it rises to with --after: that it rises is not seen "
           "so far";
  if (rests_in_either(component, test) && !request.after && !request.answered)
    return "pass the magnet, and give what it reads then with --after: where the magnet rests, a healthy one "
           "is open or closed";
  return {};
}

std::optional<Judgement> judge_one(const Resolved& resolved, const Test& test, Text id,
                                   const Judge_request& request, const Means& means, std::string& problem) {
  auto found = expected_of(resolved, test, false, problem);
  if (!found) return std::nullopt;
  hold_where_stated(*found, test);
  // The limits of what rises hold where it ends, those of what rests in either state where it meets them.
  const bool either = rests_in_either(*found->component, test);
  const auto is_other = [&](const Reading& one) {
    const Known read = known_of(one, means);
    const auto by_itself = judged(read, service_of(*found), means, {});
    return by_itself && is_other_state(read, *by_itself);
  };
  const bool later = request.after && (watches_it_rise(test) ||
                                       (either && is_other(request.reading) && !is_other(*request.after)));
  const Reading& reading = later ? *request.after : request.reading;
  Known known = known_of(reading, means);
  const bool pair = found->basis == Limit_basis::twin;
  if (pair) {
    found = twin_limits(resolved, test, std::move(*found), request, means, known, problem);
    if (!found) return std::nullopt;
  } else {
    set_temperature(known, *found, request, means);
  }
  Expected& expected = *found;
  // Beside a twin without a curve the limits hang on what that reads.
  const bool by_ohm = pair && !expected.model;
  const Limits_at limits = by_ohm ? Limits_at([&](double x) -> std::optional<Interval> {
    const double width = expected.service->relative() ? expected.service->plus * x : expected.service->plus;
    return Interval{std::max(0.0, x - width), x + width};
  })
                                  : service_of(expected);
  const auto middle = [&](double x) -> std::optional<double> {
    return by_ohm ? std::optional(x) : expected.nominal_at(x);
  };

  Judgement judgement;
  judgement.test = std::string(id);
  judgement.component = std::string(expected.component->id);
  if (const auto name = expected.component->get(&Component_type::name)) judgement.name = std::string(**name);
  judgement.probes = contacts_of(test);
  if (test.side) judgement.side = std::string(word_of(*test.side));
  judgement.reading = reading;
  if (known.beyond) judgement.reading.ohm = *known.beyond;
  judgement.ohm = known.beyond ? *known.beyond : known.ohm;
  if (request.temperature && !pair) judgement.temperature = request.temperature;

  const auto service =
      by_ohm || speaks_of(expected, known) ? judged(known, limits, means, middle) : std::nullopt;
  if (!service) {
    problem = fmt::format(
        "nothing says what {} reads at {}: {} does not reach there{}{}", quoted(expected.component->id),
        known.room ? celsius(*known.room) : celsius(known.x), expected.model ? "its model" : "the test",
        expected.rows_reach ? fmt::format(", only {}", celsius(*expected.rows_reach)) : "",
        !request.temperature ? "; give the temperature of the part with --temperature"
        : expected.rows_reach && expected.rows_reach->overlaps(means.room)
            ? fmt::format("; without --temperature all of {} is judged", celsius(means.room))
            : "");
    return std::nullopt;
  }
  judgement.service = *service;
  judgement.service.basis = expected.basis;
  judgement.service.words = expected.words;
  judgement.by_temperature = expected.varies && !pair;
  judgement.result = judgement.service.result;
  if (!pair) {
    if (auto made = judged(known, manufacturing_of(expected), means, middle)) {
      made->basis = Limit_basis::manufacturing;
      made->words = expected.manufacturing_words;
      judgement.manufacturing = std::move(*made);
    }
  }
  if (!known.room) judgement.nominal = middle(known.x);
  if (!known.beyond) {
    if (by_ohm) {
      judgement.budget = budget_of({known.ohm, known.own, 0, {}, {}, {}}, expected);
      for (const Doubt& doubt : known.about)
        judgement.budget.push_back(
            {doubt.from, doubt.half_width, false, -1, doubt.half_width / std::sqrt(3.0), 0});
      const double u = combined(judgement.budget);
      for (Contribution& one : judgement.budget) one.share = u > 0 ? std::pow(one.ohm / u, 2) : 0;
    } else {
      judgement.budget = budget_of(known, expected);
    }
    judgement.uncertainty = combined(judgement.budget);
  }
  judgement.modes = mode_answers(resolved, test, id, *expected.component, known, judgement.service,
                                 means.rule, highest_range(means.meter));
  say_what_is_meant(judgement, known, expected);
  if (judgement.result != Conformity::within && !pair)
    judgement.others = others_of(resolved, test, known, request, means, judgement.service.most.within);

  const bool rests =
      either && !request.after && request.answered.value_or(true) && is_other_state(known, judgement.service);
  if (rests) {
    judgement.result = request.answered ? Conformity::within : Conformity::too_close;
    excuse_at_rest(judgement);
  }

  if (request.reverse) {
    std::string none;
    const auto back = expected_of(resolved, test, true, none);
    const Known reversed = known_of(*request.reverse, means);
    if (back && asks_both_directions(test)) {
      judgement.reverse = judged(reversed, service_of(*back), means, {});
      if (judgement.reverse) judgement.reverse->basis = back->basis, judgement.reverse->words = back->words;
    } else {
      judgement.remarks.push_back(
          "this test does not ask for exchanged leads: the reading with --reverse is not judged");
    }
    if (judgement.reverse) judgement.result = worse(judgement.result, judgement.reverse->result);
    if (judgement.reverse && judgement.reverse->result == Conformity::outside)
      reopen(judgement, "with the leads exchanged it reads outside its limits");
  }
  if (request.after)
    judgement.response = response_verdict(test, expected, known_of(request.reading, means),
                                          known_of(*request.after, means), request, means);
  const auto answer = answer_of(test, request, judgement.response);
  if (request.at_part) {
    Known part = known_of(*request.at_part, means);
    part.x = known.x, part.about = known.about, part.room = known.room;
    const auto of_part = judged(part, limits, means, middle);
    const bool by_chance = either && of_part && answer != Conformity::outside &&
                           (is_other_state(known, judgement.service) || is_other_state(part, *of_part));
    if (by_chance) {
      judgement.remarks.emplace_back("plug and part are not compared: where the magnet rests, a healthy "
                                     "contact is open or closed; read both while it is within its limits");
    } else if (of_part) {
      judgement.harness = harness_verdict(judgement, known, part, *of_part, means);
      judgement.result = worse(judgement.result, judgement.harness->result);
      compare_with_part(judgement, mode_answers(resolved, test, id, *expected.component, part, *of_part,
                                                means.rule, highest_range(means.meter)));
    }
  }
  if (answer) {
    judgement.result = worse(judgement.result, *answer);
    if (*answer == Conformity::outside)
      reopen(judgement, "it does not answer as a healthy one does");
    else if (*answer == Conformity::within)
      exclude_by_answer(judgement, test);
  }
  if (request.answered && !asks_for_response(test)) {
    judgement.remarks.emplace_back(no_answer_asked);
  } else if (request.answered) {
    if (!*request.answered)
      judgement.remarks.emplace_back("seen by eye, it does not answer as the test asks");
    if (judgement.response &&
        judgement.response->result == (*request.answered ? Conformity::outside : Conformity::within))
      judgement.remarks.emplace_back("what was seen by eye and the reading after it contradict each other: "
                                     "the worse of the two counts; do it again");
  } else if (!request.after && test.response.kind &&
             // Else what settles it asks for it.
             (!(watches_it_rise(test) || either) || judgement.result == Conformity::outside)) {
    std::string how(word_of(*test.response.kind));
    std::replace(how.begin(), how.end(), '_', ' ');
    judgement.remarks.push_back(
        fmt::format("the test asks for a response too ({}{}): give the reading after it "
                    "with --after",
                    how, test.response.how ? ": " + quoted(*test.response.how) : ""));
  }
  remark(resolved, judgement, test, expected, known, request, means);
  if (judgement.service.result == Conformity::too_close)
    say_what_settles(judgement, known, limits, means, test, expected);
  if (std::string missing = missing_half(*expected.component, test, request);
      !missing.empty() && judgement.result != Conformity::outside) {
    judgement.result = Conformity::too_close;
    const bool only_that = judgement.service.result == Conformity::within || rests;
    (only_that ? judgement.settle : judgement.remarks).push_back(std::move(missing));
  }
  return judgement;
}

}

Means means_of(const Corpus* corpus, const Judge_means& means) {
  const rules::Handheld reference = rules::reference_meter(corpus);
  Means all;
  all.meter =
      means.meter.value_or(Meter_accuracy{reference.accuracy, reference.counts, reference.display_counts});
  all.leads = means.leads.value_or(Leads{reference.leads, Leads{}.half_width});
  all.leads_stated = means.leads.has_value();
  all.rule = means.rule;
  all.room = means.room;
  return all;
}

Known known_of(const Reading& reading, const Means& means) {
  Known known;
  if (reading.over_range) {
    const double end = reading.ohm > 0 ? reading.ohm : highest_range(means.meter);
    known.beyond = end;
    known.own = {{Contributor::meter, accuracy_half_width(means.meter, end, display_step(means.meter, end))},
                 {Contributor::leads, means.leads.ohm + means.leads.half_width}};
    return known;
  }
  const double step = display_step(means.meter, reading.ohm);
  known.ohm = std::max(0.0, reading.ohm - means.leads.ohm);
  known.own = {{Contributor::meter, accuracy_half_width(means.meter, reading.ohm, step)},
               {Contributor::leads, means.leads.half_width}};
  if (reading.half_digit > step * 0.501) known.own.push_back({Contributor::rounding, reading.half_digit});
  return known;
}

void set_temperature(Known& known, const Expected& expected, const Judge_request& request,
                     const Means& means) {
  known.about.clear();
  known.room.reset();
  if (!expected.varies) return;
  if (!request.temperature) {
    known.room = means.room;
    return;
  }
  known.x = request.temperature->kelvin;
  for (const Temperature_deviation& one : temperature_deviations(*request.temperature))
    known.about.push_back({one.from, one.half_width});
  if (!known.beyond && expected.model && is_temperature_sensor(*expected.component, *expected.model))
    known.about.push_back({Contributor::self_heating, self_heating(known.ohm)});
}

std::string shown_ohm(double ohm) {
  if (std::fabs(ohm) >= 1 || ohm == 0) return describe(ohm, Dimension::resistance);
  return fmt::format("{:.4g} Ω", std::round(ohm * 1000) / 1000);
}

std::string shown_rounded(double ohm) {
  constexpr double least = 1e-4; // below it zeros hide the number
  return ohm >= 1 || ohm < least ? limit_text(ohm) : fmt::format("{:.5g} Ω", ohm);
}

std::string shown_ohm(Interval limits) {
  const Interval shown = outward(limits);
  if (std::isinf(limits.high)) return fmt::format("at least {}", shown_rounded(shown.low));
  if (limits.low <= 0) return fmt::format("at most {}", shown_rounded(shown.high));
  return fmt::format("{} to {}", shown_rounded(shown.low), shown_rounded(shown.high));
}

std::string shown_probability(double probability) {
  if (probability > 0.99) return probability >= 1 - 1e-9 ? "1" : "above 0.99";
  if (probability < 0.01) return probability <= 1e-9 ? "0" : "below 0.01";
  return fmt::format("{:.2f}", probability);
}

std::string shown_probability(const Probable& probable) {
  const std::string least = shown_probability(probable.least.within),
                    most = shown_probability(probable.most.within);
  return least == most ? least : fmt::format("{} to {}", least, most);
}

std::optional<Judged> judged(const Known& known, const Limits_at& limits, const Means& means,
                             const std::function<std::optional<double>(double)>& middle) {
  const auto found = probable(known, limits);
  if (!found) return std::nullopt;
  Judged out;
  out.least = found->least;
  out.most = found->most;
  out.result = decide(*found, means.rule);
  if (!known.room) {
    out.ohm = *limits(known.x);
  } else {
    bool any = false;
    constexpr int steps = 50;
    for (int i = 0; i <= steps; ++i)
      if (const auto here = limits(known.room->low + known.room->width() * i / steps)) {
        out.ohm = any ? hull(out.ohm, *here) : *here;
        any = true;
      }
  }
  if (out.result == Conformity::too_close && middle && !known.room && !known.beyond)
    if (const auto ideal = middle(known.x)) {
      Known best = known_of({*ideal + means.leads.ohm, 0, false}, means);
      best.x = known.x;
      best.about = known.about;
      if (const auto at_best = probable(best, limits)) out.best = at_best->least.within;
    }
  return out;
}

Conformity worse(Conformity a, Conformity b) {
  if (a == Conformity::outside || b == Conformity::outside) return Conformity::outside;
  return a == Conformity::within ? b : a;
}

Conformity Verdict::result() const {
  Conformity worst = judgements.empty() || !problems.empty() ? Conformity::too_close : Conformity::within;
  for (const Judgement& one : judgements) worst = worse(worst, one.result);
  for (const Set_check& check : sets) worst = worse(worst, check.result);
  return worst;
}

// What parse_reading refuses as text, a program may hand over as it came from a meter.
static std::string problem_of(const Reading& reading) {
  if (!std::isfinite(reading.ohm) || !std::isfinite(reading.half_digit) || reading.half_digit < 0)
    return fmt::format("a reading of {} Ω ± {} Ω is none; what is beyond the range is said by over_range",
                       reading.ohm, reading.half_digit);
  if (reading.ohm < 0)
    return fmt::format("{} is negative: {}", describe(reading.ohm, Dimension::resistance), why_negative);
  return {};
}

// Of leads that were measured; those that are assumed may have been nulled.
static std::string below_leads(const Reading& reading, const Means& means) {
  if (!means.leads_stated || !is_below_leads(reading, means)) return {};
  return fmt::format("{} is less than the leads alone, {}, by more than the {} that meter and leads may be "
                     "off: {}. Where the meter had nulled them: --leads 0",
                     shown_ohm(reading.ohm), shown_ohm(means.leads.ohm),
                     shown_ohm(half_width_of(reading, means)), why_negative);
}

static std::string problem_of(const Judge_request& request, const Means& means) {
  std::string problem;
  for (const Reading* reading : readings_of(request)) {
    if (problem.empty()) problem = problem_of(*reading);
    if (problem.empty()) problem = below_leads(*reading, means);
  }
  return problem;
}

Verdict judge(const Resolved& resolved, std::span<const Judge_request> requests, const Judge_means& stated) {
  const Profile& profile = *resolved.document->profile();
  const Means means = means_of(resolved.surroundings.corpus, stated);
  Verdict verdict;
  verdict.profile = std::string(*profile.id);
  verdict.revision = *profile.revision;
  verdict.meter = means.meter;
  verdict.leads = means.leads;
  verdict.leads_stated = means.leads_stated;
  verdict.rule = means.rule;
  verdict.room = means.room;
  verdict.cautions = cautions_for(profile);
  for (const Judge_request& request : requests) {
    const auto* entry = profile.tests.find(request.test);
    if (entry == nullptr) {
      const std::vector<std::string_view> ids = ids_of(profile.tests);
      verdict.problems.push_back(fmt::format("profile {} has no test {}{}", verdict.profile,
                                             quoted(request.test),
                                             ids.empty() ? "; it has none at all" : hint(request.test, ids)));
      if (nearest_word(request.test, ids).empty() && !ids.empty())
        verdict.problems.back() += fmt::format("; it has {}", listed(ids));
      continue;
    }
    std::string problem = problem_of(request, means);
    auto judgement = problem.empty() ? judge_one(resolved, entry->value, entry->id, request, means, problem)
                                     : std::nullopt;
    if (judgement)
      verdict.judgements.push_back(std::move(*judgement));
    else
      verdict.problems.push_back(fmt::format("{}: {}", entry->id, problem));
  }
  verdict.sets = set_checks(resolved, verdict.judgements, means);
  return verdict;
}

}
