#include "judge/remarks.h"

#include <algorithm>
#include <cmath>

#include "judge/modes.h"
#include "judge/shown.h"
#include "lint/contacts.h"
#include "lint/readings.h"
#include "lint/rule.h"

namespace ohmlore {
namespace {

using namespace rules;

void remark_on_temperature(Judgement& judgement, const Case& one) {
  auto& remarks = judgement.remarks;
  if (one.known.room)
    remarks.push_back(
        fmt::format("no temperature of the part was given: judged for all of {}, so that only what no "
                    "part in there reads is outside",
                    celsius(*one.known.room)));
  else if (one.request.temperature && one.expected.varies &&
           one.request.temperature->place == Temperature_place::unstated)
    remarks.push_back("where the temperature was taken is not said: it is taken for that of the part itself");
  if (judgement.service.result == Conformity::outside && judgement.means && judgement.temperature &&
      one.expected.kelvin_range().contains(*judgement.means))
    remarks.push_back(fmt::format("a healthy one would read so at {}: make sure that the part is at {}, and "
                                  "not warmed or cooled by what it "
                                  "sits on, before it is condemned",
                                  celsius(*judgement.means), celsius(judgement.temperature->kelvin)));
  const Interval asked = one.known.room.value_or(Interval{one.known.x, one.known.x});
  const auto& rows = one.expected.rows_reach;
  if (rows && one.expected.varies && !rows->contains(asked) &&
      (!one.known.room || is_temperature_sensor(*one.expected.component)))
    remarks.push_back(fmt::format("{} states {} only: taken for {}",
                                  one.expected.model ? "its model" : "the test", celsius(*rows),
                                  celsius(asked)));
  for (std::string& doubt : doubts_at(one.expected, asked)) remarks.push_back(std::move(doubt));
  if (one.request.temperature && !one.expected.varies && one.test.expect.at) {
    const Interval at = kelvin_interval(*one.test.expect.at);
    if (!at.contains(one.request.temperature->kelvin))
      remarks.push_back(fmt::format("the limits hold at {}, not at {}", celsius(at),
                                    celsius(one.request.temperature->kelvin)));
  }
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

void remark_on_means(Judgement& judgement, const Case& one) {
  auto& remarks = judgement.remarks;
  if (judgement.reading.over_range && one.request.reading.ohm == 0)
    remarks.push_back(
        fmt::format("the range of the OL was not given: taken for the meter's highest, which ends at {}",
                    shown_ohm(judgement.reading.ohm)));
  const auto readings = readings_of(one.request);
  const double highest = highest_range(one.means.meter);
  for (const Reading* reading : readings)
    if (!reading->over_range && reading->ohm > highest)
      remarks.push_back(fmt::format("{} is above {}, where the highest range of the meter ends: look at the "
                                    "unit on its display; the limits are not those of an insulation tester",
                                    shown_ohm(reading->ohm), shown_ohm(highest)));
  const double digit = display_step(one.means.meter, 0);
  for (const Reading* reading : readings)
    if (!reading->over_range && reading->ohm > 0 && reading->ohm < digit)
      remarks.push_back(
          fmt::format("{} is less than the last digit of the meter's lowest range, {}: look at the "
                      "unit on its display",
                      describe(reading->ohm, Dimension::resistance), shown_ohm(digit)));
  const auto below = std::find_if(readings.begin(), readings.end(), [&](const Reading* reading) {
    return is_below_leads(*reading, one.means);
  });
  if (below != readings.end())
    remarks.push_back(fmt::format("{} is less than the {} that leads are taken for where they were not "
                                  "measured: it counts as 0 Ω. Were they nulled? Then say so: --leads 0",
                                  shown_ohm((*below)->ohm), shown_ohm(one.means.leads.ohm)));
  if (!one.means.leads_stated && !judgement.budget.empty() && !one.known.beyond)
    for (const Contribution& part : judgement.budget)
      if (part.from == Contributor::leads && part.share > 0.1)
        remarks.push_back(fmt::format("the leads were not measured: taken for {} ± {}",
                                      shown_ohm(one.means.leads.ohm), shown_ohm(one.means.leads.half_width)));
  const auto& made = judgement.manufacturing;
  const Interval& limits = judgement.service.ohm;
  if (made && one.expected.is_assumed() && (made->ohm.low <= limits.low || made->ohm.high >= limits.high))
    remarks.push_back(fmt::format("{} is assumed, and what the part is made within ({}) reaches further: the "
                                  "wider of the two counts",
                                  one.expected.words, one.expected.manufacturing_words));
  if (made && made->result == Conformity::too_close && made->best &&
      *made->best < 1 - one.means.rule.false_acceptance && !judgement.budget.empty())
    remarks.push_back(fmt::format("whether the part is still as made ({}) cannot be decided here: even a "
                                  "reading in the middle of {} would be within "
                                  "with probability {} only, because of {}",
                                  one.expected.manufacturing_words, shown_ohm(made->ohm),
                                  shown_probability(*made->best),
                                  contributor_words(judgement.budget[0].from)));
}

void remark_on_what_is_seen(Judgement& judgement, const Case& one) {
  auto& remarks = judgement.remarks;
  const bool within = judgement.result == Conformity::within;
  const Value<Expectation_kind>& kind = one.test.expect.kind;
  if (kind && *kind == Expectation_kind::open && within)
    remarks.push_back("no gross leakage seen; an ohmmeter can prove leakage, never its absence");
  if (kind && *kind == Expectation_kind::not_short && within)
    remarks.push_back("not a short; it says nothing more");
  if (kind && *kind == Expectation_kind::rises_to_open && !one.known.beyond &&
      judgement.result == Conformity::outside && judgement.response &&
      judgement.response->result == Conformity::within)
    remarks.push_back("it may be rising still: hold the leads until it stands, and give that with --after");
  if (kind && *kind == Expectation_kind::smooth_sweep)
    remarks.push_back("that it moved evenly is seen by eye, not in this number");
  if (std::any_of(judgement.modes.begin(), judgement.modes.end(), [](const Mode_answer& answer) {
        return answer.mode == Mode::protector_open &&
               (answer.verdict == Mode_verdict::fits || answer.verdict == Mode_verdict::undecided);
      }))
    remarks.emplace_back(mind_the_protector(*one.expected.component));
  // What is open or short is so whatever its twin reads.
  const bool by_itself =
      std::any_of(judgement.modes.begin(), judgement.modes.end(), [](const Mode_answer& answer) {
        return answer.verdict == Mode_verdict::fits && answer.mode != Mode::drift_high &&
               answer.mode != Mode::drift_low;
      });
  if (one.beside_twin() && judgement.result == Conformity::outside && !by_itself)
    remarks.push_back(which_of_two(*one.test.expect.with));
  if (one.expected.component->is(Component_kind::photocell) && judgement.result == Conformity::outside)
    remarks.emplace_back(mind_the_light);
  const Judged& service = judgement.service;
  if (conducts_beside_the_coil(*one.expected.component, service.ohm.low) && !judgement.reading.over_range &&
      service.result != Conformity::within && service.most.below > service.most.above &&
      judgement.ohm > near_zero_at_most(service.ohm))
    remarks.emplace_back(mind_the_diode_across);
  if (one.expected.component->is(Component_kind::electronic))
    remarks.push_back("electronics: no dead test shows them to be good");
  if (reads_wires_alone(one.resolved, one.test, one.id))
    remarks.push_back(fmt::format("the part is off: the failures are those of the wires, and nothing is said "
                                  "of {} itself",
                                  quoted(one.expected.component->id)));
  if (one.test.excludes.empty() && within)
    remarks.push_back("the profile does not say which failures this test excludes: none is");
}

// No failure of the part alone opens what lies beside it.
void remark_on_an_open_way(Judgement& judgement, const Case& one) {
  const bool fits = std::any_of(judgement.modes.begin(), judgement.modes.end(),
                                [](const auto& answer) { return answer.verdict == Mode_verdict::fits; });
  const double open = open_from(judgement.service.ohm, highest_range(one.means.meter));
  if (!fits && judgement.ohm >= open && judgement.service.result == Conformity::outside &&
      is_path_of_several(one.resolved, one.test, Arrangement::parallel))
    judgement.remarks.emplace_back(look_at_the_way_to_all);
}

// Of several in one path, any may be what is open.
bool may_have_opened_to_protect(const Case& one) {
  if (opens_to_protect(*one.expected.component)) return true;
  for (const Circuit* circuit : circuits_read(one.resolved, one.test))
    for (const Element& element : circuit->elements) {
      const Resolved_component* beside =
          element.component ? one.resolved.component(*element.component) : nullptr;
      if (beside != nullptr && opens_to_protect(*beside)) return true;
    }
  return false;
}

// Whichever of several it is, the leads read the same.
void remark_on_several(Judgement& judgement, const Case& one) {
  const bool said = one.request.at_part && !judgement.harness; // that one is left out
  if (!said && judgement.result == Conformity::outside && !circuits_read(one.resolved, one.test).empty() &&
      !reads_wires_alone(one.resolved, one.test, one.id))
    judgement.remarks.emplace_back(read_each_by_itself);
}

// What a broken path does not say by itself.
void remark_on_a_break(Judgement& judgement, const Case& one) {
  const bool broken = std::any_of(judgement.modes.begin(), judgement.modes.end(), [](const auto& answer) {
    return answer.verdict == Mode_verdict::fits &&
           (answer.mode == Mode::open || answer.mode == Mode::stuck_open);
  });
  if (!broken || reads_wires_alone(one.resolved, one.test, one.id)) return;
  if (reads_through_diodes(*one.expected.component)) judgement.remarks.emplace_back(mind_the_diodes);
  if (may_have_opened_to_protect(one)) judgement.remarks.emplace_back(find_what_opened_it);
}

void say_what_the_profile_says(Judgement& judgement, const Case& one) {
  auto& remarks = judgement.remarks;
  const Test& test = one.test;
  if (test.positive)
    remarks.push_back(fmt::format("the positive lead belongs on {}", text_of(*test.positive)));
  if (test.condition)
    remarks.push_back(fmt::format("holds in the condition {} only", quoted(*test.condition)));
  if (test.note)
    remarks.push_back(fmt::format("the profile notes of this test: {}", quoted_whole(*test.note)));
  const auto note = one.expected.component->get(&Component_type::note);
  if (note && !(test.note && *test.note == **note))
    remarks.push_back(fmt::format("the profile notes of this part: {}", quoted_whole(**note)));
}

// Of a bleeder: no resistor is off by so much (common practice, no source).
constexpr double bleeder_open_from = 1.5;

void remark_on_charge(Judgement& judgement, const Case& one) {
  const Resolved_component& component = *one.expected.component;
  const auto bleeder = component.get(&Component_type::bleeder);
  if (!bleeder || judgement.ohm <= bleeder_open_from * (**bleeder).si ||
      !same_ends(component.placed->between, one.test.probes))
    return;
  judgement.remarks.push_back(fmt::format(
      "with its bleeder of {} it reads no more than that: the bleeder is open, and a charge stays; verify "
      "that it is gone each time",
      shown_ohm((**bleeder).si)));
}

void remark_on_fingers(Judgement& judgement, const Case& one) {
  const double least = judgement.service.ohm.low, read = one.known.ohm;
  if (judgement.result != Conformity::within && !one.known.beyond && least >= fingers_matter_from &&
      read < least && read >= broken_at_least)
    judgement.remarks.emplace_back(mind_the_fingers);
}

void remark_on_contacts(Judgement& judgement, const Case& one) {
  auto& remarks = judgement.remarks;
  const Value<Expectation_kind>& kind = one.test.expect.kind;
  const bool contact = !one.expected.component->is(Component_kind::photocell) &&
                       (one.expected.basis == Limit_basis::state ||
                        (kind && (*kind == Expectation_kind::open || *kind == Expectation_kind::closed)));
  const double read = one.known.ohm;
  const bool wanted_open = std::isinf(judgement.service.ohm.high);
  const double conducts = wanted_open ? conducts_up_to(*one.expected.component) : judgement.service.ohm.high;
  const double opens =
      wanted_open ? open_at_least : broken_from(one.expected.component, judgement.service.ohm);
  if (contact && !one.known.beyond && read > conducts && read < opens &&
      judgement.result == Conformity::outside) {
    remarks.push_back(
        wanted_open ? "neither open nor closed: a path of high resistance, damp or leaking"
                    : "neither closed nor open: a high contact resistance, or another part in the path");
  }
  if (one.known.beyond && judgement.result == Conformity::outside && !std::isinf(judgement.service.ohm.high))
    remarks.push_back(
        "OL is also what leads off their contacts, or a tip on a lacquered pin, read: try once more");
  if (one.known.beyond && judgement.result == Conformity::within)
    remarks.push_back(
        "OL is also what leads off their contacts, or a tip on a lacquered pin, read: before it counts as "
        "healthy, see that the tips together read about 0 Ω, and read once more");
}

}

std::string mind_the_prefix(const Reading& reading, const Judged& by) {
  if (by.result != Conformity::outside || reading.over_range || by.ohm.low <= 0 || std::isinf(by.ohm.high))
    return {};
  for (const double times : {1e3, 1e-3, 1e6, 1e-6})
    if (const double meant = reading.ohm * times, off = reading.half_digit * times;
        by.ohm.contains(Interval{meant - off, meant + off}))
      return fmt::format("{} would be within: look once more whether the display says Ω, kΩ or MΩ, before "
                         "anything is condemned",
                         shown_ohm(meant));
  return {};
}

void add_remarks(Judgement& judgement, const Case& one) {
  for (const std::string& remark : one.expected.remarks) judgement.remarks.push_back(remark);
  remark_on_temperature(judgement, one);
  remark_on_means(judgement, one);
  remark_on_what_is_seen(judgement, one);
  remark_on_an_open_way(judgement, one);
  remark_on_several(judgement, one);
  remark_on_a_break(judgement, one);
  say_what_the_profile_says(judgement, one);
  remark_on_charge(judgement, one);
  remark_on_fingers(judgement, one);
  if (auto prefix = mind_the_prefix(judgement.reading, judgement.service); !prefix.empty())
    judgement.remarks.push_back(std::move(prefix));
  remark_on_contacts(judgement, one);
}

}
