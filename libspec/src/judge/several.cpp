#include "judge/several.h"

#include <algorithm>
#include <cmath>

#include "judge/asked.h"
#include "judge/modes.h"
#include "judge/shown.h"
#include "lint/contacts.h"
#include "lint/meter.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "units/outward.h"

namespace ohmlore {
namespace {

using namespace rules;

// Of two readings of one meter with the same leads: what the leads add cancels, and on one range the share of
// the reading that both are off alike (common practice, no source).
std::vector<Deviation> meter_deviations(const Known& a, const Known& b, const Means& means) {
  const bool one_range = display_step(means.meter, a.ohm) == display_step(means.meter, b.ohm);
  const double alike = one_range ? means.meter.of_reading * std::min(a.ohm, b.ohm) : 0;
  std::vector<Deviation> out;
  for (const Known* known : {&a, &b})
    for (const Doubt& doubt : known->own)
      if (doubt.from != Contributor::leads)
        out.push_back(
            {doubt.half_width - (doubt.from == Contributor::meter ? alike : 0), Distribution::rectangular});
  return out;
}

// What a difference may be at most, rounded as every limit is.
std::string shown_most(double ohm) { return shown_rounded(outward({0, ohm}).high); }

std::string how_sure(double probability) {
  return fmt::format("probability {}", shown_probability(probability));
}

std::string_view words_of_part(const Judged& of_part) {
  return of_part.result == Conformity::within    ? "the part itself is within its limits"
         : of_part.result == Conformity::outside ? "the part itself is outside its limits"
                                                 : "the part itself is too close to call";
}

// Of plug and part at least one reads OL, which tells more than the other only where its range ends above
// that.
void judge_over_range(Harness_verdict& verdict, const Known& plug, const Known& part, const Judged& of_part,
                      double most) {
  const auto ends_above = [&](const Known& over, const Known& other) {
    return *over.beyond - half_width_of(over) > other.ohm + half_width_of(other) + most;
  };
  const auto says_nothing = [](const char* where, const Known& over) {
    return fmt::format("OL {} on a range that ends at {} says nothing of the harness: read it again on a "
                       "higher one",
                       where, shown_ohm(*over.beyond));
  };
  if (part.beyond && plug.beyond) {
    if (of_part.result == Conformity::outside) {
      verdict.words = "plug and part both read OL: it is the part, and of the harness nothing is known";
    } else {
      verdict.words = says_nothing("on the part", part);
    }
  } else if (plug.beyond) {
    if (!ends_above(plug, part)) {
      verdict.words = fmt::format("{}; {}", says_nothing("at the plug", plug), words_of_part(of_part));
      return;
    }
    verdict.mode = Mode::open;
    verdict.result = Conformity::outside;
    verdict.words = fmt::format("OL at the plug and {} on the part: the harness is open; {}",
                                shown_ohm(part.ohm), words_of_part(of_part));
  } else if (!ends_above(part, plug)) {
    verdict.words = says_nothing("on the part", part);
  } else {
    verdict.mode = plug.ohm <= 1 ? Mode::short_ : Mode::wet_or_corroded;
    verdict.result = Conformity::outside;
    verdict.words =
        fmt::format("{} at the plug and OL on the part: the harness has a path that the part does not "
                    "have, or the two readings were exchanged",
                    shown_ohm(plug.ohm));
  }
}

}

Harness_verdict harness_verdict(const Judgement& at_plug, const Known& plug, const Known& part,
                                const Judged& of_part, const Means& means) {
  Harness_verdict verdict;
  const std::string_view part_words = words_of_part(of_part);
  // What a lead may add: as little as a closed contact, or what matters little beside the limits of the part
  // (common practice, no source).
  const Interval& limits = at_plug.service.ohm;
  const bool open_upwards = std::isinf(limits.high);
  const double most = std::max(1.0, (open_upwards ? limits.low : limits.width()) / 8);
  if (open_upwards && at_plug.service.result == Conformity::within && of_part.result == Conformity::within) {
    verdict.result = Conformity::within;
    verdict.words = "plug and part are both within their limit: the harness has no path that matters";
    return verdict;
  }
  if (part.beyond || plug.beyond) {
    judge_over_range(verdict, plug, part, of_part, most);
    return verdict;
  }
  const std::vector<Deviation> deviations = meter_deviations(plug, part, means);
  verdict.ohm = plug.ohm - part.ohm;
  verdict.uncertainty = combined_uncertainty(deviations);
  const Conformity_probability probable = conformity(verdict.ohm, deviations, {-most, most});
  verdict.result = decide(probable, means.rule);
  const std::string difference =
      fmt::format("the plug reads {} {} than the part", shown_ohm(std::fabs(verdict.ohm)),
                  verdict.ohm < 0 ? "less" : "more");
  if (verdict.result == Conformity::within) {
    verdict.words = fmt::format("{}, at most {} would matter: the harness adds nothing; {}", difference,
                                shown_most(most), part_words);
  } else if (verdict.result == Conformity::too_close) {
    verdict.words =
        fmt::format("{}; whether that is more than the {} that would matter is too close to call ({} that it "
                    "is not); {}",
                    difference, shown_most(most), how_sure(probable.within), part_words);
  } else if (verdict.ohm > 0) {
    verdict.mode = Mode::high_contact_resistance;
    verdict.words = fmt::format("{}, at most {} would be healthy: a bad contact or wire in the harness; {}",
                                difference, shown_most(most), part_words);
  } else {
    verdict.mode = plug.ohm <= 1 ? Mode::short_ : Mode::wet_or_corroded;
    verdict.words = fmt::format("{}: the harness has a path beside the part, {}; {}", difference,
                                *verdict.mode == Mode::short_ ? "a short" : "damp or chafed", part_words);
  }
  return verdict;
}

namespace {

// Falls, rises: the sign of what is wanted.
void judge_change(Response_verdict& verdict, const Expected& expected, const Known& before,
                  const Known& after, const Judge_request& request, const Means& means, Response_kind kind) {
  double wanted = kind == Response_kind::falls_when_warmed ? -1 : 1;
  const bool charges = kind == Response_kind::rises_to_open;
  // Who let it cool instead sees the same the other way round.
  const bool cooled = !charges && request.temperature && request.after_temperature &&
                      request.after_temperature->kelvin < request.temperature->kelvin;
  if (cooled) wanted = -wanted;
  const std::vector<Deviation> deviations = meter_deviations(before, after, means);
  const Conformity_probability probable = conformity(wanted * verdict.change, deviations, {0, infinity});
  verdict.result = decide(probable, means.rule);
  const std::string_view word = wanted < 0 ? "fell" : "rose", longer = charges  ? "hold the leads on it"
                                                                       : cooled ? "cool it"
                                                                                : "warm it";
  const std::string change = fmt::format("from {} to {}", shown_ohm(before.ohm), shown_ohm(after.ohm));
  const auto first = expected.kelvin_of(before.ohm), second = expected.kelvin_of(after.ohm);
  if (first && second) verdict.warmed_by = *second - *first;
  if (verdict.result == Conformity::within)
    verdict.words = fmt::format("{} {} as it must", word, change);
  else if (verdict.result == Conformity::outside)
    verdict.words = fmt::format("went {}, where it must have {}", change, wanted < 0 ? "fallen" : "risen");
  else
    verdict.words =
        fmt::format("went {}: less than the meter can tell ({} that it {}); {} longer and read again", change,
                    how_sure(probable.within), word, longer);
  if (verdict.warmed_by)
    verdict.words += fmt::format("; on its curve that is {} of warming", kelvin(*verdict.warmed_by));
  if (!request.after_temperature || !expected.varies) return;
  Judge_request warmed = request;
  warmed.temperature = request.after_temperature;
  Known there = after;
  set_temperature(there, expected, warmed, means);
  if (!expected.service_at(there.x)) return;
  const auto found = judged(there, service_of(expected), means, {});
  if (!found) return;
  verdict.expected_ohm = found->ohm;
  verdict.words += fmt::format("; at {} {} is expected: {}", celsius(there.x), shown_ohm(found->ohm),
                               found->result == Conformity::within    ? "within"
                               : found->result == Conformity::outside ? "outside"
                                                                      : "too close to call");
  if (verdict.result == Conformity::within) verdict.result = found->result;
}

}

Response_verdict response_verdict(const Test& test, const Expected& expected, const Known& before,
                                  const Known& after, const Judge_request& request, const Means& means) {
  Response_verdict verdict;
  if (!asks_for_response(test)) {
    verdict.words = "this test asks for no response: the reading with --after is not judged";
    verdict.result = Conformity::within;
    return verdict;
  }
  const Response_kind kind = watches_it_rise(test) ? Response_kind::rises_to_open : *test.response.kind;
  if (kind == Response_kind::toggles_with_magnet) {
    // Its limits may allow for more.
    const auto limits = expected.service_at(after.x);
    const double allowed = limits && limits->high < open_at_least ? limits->high : 0;
    const auto closed = [&](const Known& known) {
      return !known.beyond && (known.ohm <= allowed || is_closed(*expected.component, known.ohm));
    };
    const auto open = [&](const Known& known) { return is_open(*expected.component, known); };
    const bool toggled = (open(before) && closed(after)) || (closed(before) && open(after));
    const bool stays = (open(before) && open(after)) || (closed(before) && closed(after));
    verdict.result = toggled ? Conformity::within : stays ? Conformity::outside : Conformity::too_close;
    verdict.words = toggled ? "the contact changed, as it must"
                    : stays ? fmt::format("the contact stayed {}", open(after) ? "open" : "closed")
                            : "one of the two is neither open nor closed";
    return verdict;
  }
  const bool lost = after.beyond && !before.beyond;
  if (kind == Response_kind::smooth_sweep && !lost) {
    verdict.words = "an even sweep is seen by eye, not in two readings";
    return verdict;
  }
  if (kind == Response_kind::rises_to_open && after.beyond) {
    verdict.result = Conformity::within;
    verdict.words = before.beyond ? "OL from the start: whether it rose is not seen"
                                  : fmt::format("rose from {} to OL, as it must", shown_ohm(before.ohm));
    if (before.beyond) verdict.result = Conformity::too_close;
    return verdict;
  }
  if (lost) {
    const auto limits = expected.service_at(after.x);
    const double end = *after.beyond;
    const bool open = end >= open_from(limits.value_or(Interval{}), highest_range(means.meter));
    // A healthy one may have risen out of that range.
    const bool may_rise = kind == Response_kind::rises_when_warmed || kind == Response_kind::smooth_sweep;
    const bool told = open || (!may_rise && end > before.ohm);
    verdict.result = told ? Conformity::outside : Conformity::too_close;
    verdict.words = fmt::format(
        "went from {} to OL{}", shown_ohm(before.ohm),
        open   ? ": the path opened"
        : told ? fmt::format(", more than {}", shown_ohm(end))
               : fmt::format(" on a range that ends at {}: read it again on a higher one", shown_ohm(end)));
    return verdict;
  }
  if (before.beyond) {
    const bool closed = kind == Response_kind::steady_when_moved && !after.beyond &&
                        after.ohm + half_width_of(after) < *before.beyond;
    if (closed) verdict.result = Conformity::outside;
    verdict.words = closed ? fmt::format("went from OL to {}: the path comes and goes", shown_ohm(after.ohm))
                           : "read OL before: there is no response to judge";
    return verdict;
  }
  verdict.change = after.ohm - before.ohm;
  if (kind == Response_kind::steady_when_moved) {
    // Common practice, no source.
    const double most = std::max(1.0, 0.02 * before.ohm);
    std::vector<Deviation> counts = {{display_step(means.meter, before.ohm), Distribution::rectangular},
                                     {display_step(means.meter, after.ohm), Distribution::rectangular}};
    verdict.result = decide(conformity(verdict.change, counts, {-most, most}), means.rule);
    verdict.words = fmt::format("moved by {}, at most {} is steady", shown_ohm(std::fabs(verdict.change)),
                                shown_most(most));
    return verdict;
  }
  judge_change(verdict, expected, before, after, request, means, kind);
  return verdict;
}

std::optional<Conformity> answer_of(const Test& test, const Judge_request& request,
                                    const std::optional<Response_verdict>& response) {
  if (!asks_for_response(test)) return std::nullopt;
  if (!request.answered) return response ? std::optional(response->result) : std::nullopt;
  const Conformity seen = *request.answered ? Conformity::within : Conformity::outside;
  // Two readings say nothing of a sweep.
  const Value<Response_kind>& kind = test.response.kind;
  const bool by_eye_alone = kind && *kind == Response_kind::smooth_sweep && !watches_it_rise(test);
  return response && !by_eye_alone ? worse(seen, response->result) : seen;
}

namespace {

// One reading between two contacts of a winding.
struct Leg {
  const Judgement* judgement;
  std::string a, b;
  double nominal = 0; ///< ohm at 20 °C; 0 where not known
  double meter = 0;   ///< half-width
};

bool joins(const Leg& leg, const std::string& a, const std::string& b) {
  return (leg.a == a && leg.b == b) || (leg.a == b && leg.b == a);
}

std::vector<Leg> legs_of(const Resolved& resolved, std::span<const Judgement> judgements,
                         const std::string& component, bool over_range) {
  std::vector<Leg> legs;
  for (const Judgement& one : judgements) {
    if (one.component != component || one.reading.over_range != over_range) continue;
    const Test* test = resolved.test(one.test);
    const Resolved_component* part = resolved.component(component);
    if (test == nullptr || part == nullptr || !has_both_ends(test->probes)) continue;
    // What leaks to earth is no winding.
    if (!on_own_contacts(*test, *part) || std::isinf(one.service.ohm.high)) continue;
    const auto curve = model_expectation(resolved, *part, *test);
    if (!curve || !curve->model) continue;
    Leg leg{&one, text_of(*test->probes[0]), text_of(*test->probes[1]), 0, 0};
    leg.nominal = curve->nominal_at(zero_celsius + 20).value_or(0);
    for (const Contribution& c : one.budget)
      if (c.from == Contributor::meter) leg.meter = c.half_width;
    const auto same = [&](const Leg& other) { return joins(other, leg.a, leg.b); };
    if (std::none_of(legs.begin(), legs.end(), same)) legs.push_back(leg);
  }
  return legs;
}

std::vector<Deviation> doubts_of(std::initializer_list<const Leg*> legs, const Means& means) {
  std::vector<Deviation> out;
  for (const Leg* leg : legs) out.push_back({leg->meter, Distribution::rectangular});
  out.push_back({means.leads.half_width, Distribution::rectangular});
  return out;
}

// Windings that are alike must read alike (common practice, no source: 5 %).
void check_balance(std::vector<Set_check>& checks, const std::vector<Leg>& legs, const Means& means) {
  std::vector<bool> done(legs.size());
  for (std::size_t i = 0; i < legs.size(); ++i) {
    if (done[i] || legs[i].nominal <= 0) continue;
    const Leg *least = &legs[i], *most = &legs[i];
    for (std::size_t j = i; j < legs.size(); ++j) {
      if (std::fabs(legs[j].nominal - legs[i].nominal) > 1e-6 * legs[i].nominal) continue;
      done[j] = true;
      if (legs[j].judgement->ohm < least->judgement->ohm) least = &legs[j];
      if (legs[j].judgement->ohm >= most->judgement->ohm) most = &legs[j]; // and so two that read the same
    }
    if (least == most) continue;
    const double difference = most->judgement->ohm - least->judgement->ohm;
    const double allowed = 0.05 * most->judgement->ohm;
    std::vector<Deviation> doubts = doubts_of({least, most}, means);
    doubts.pop_back(); // the leads cancel
    const Conformity_probability probable = conformity(difference, doubts, {-infinity, allowed});
    Set_check check{decide(probable, means.rule), {}};
    check.words =
        fmt::format("{} and {} are alike and read {} and {}", least->judgement->test, most->judgement->test,
                    shown_ohm(least->judgement->ohm), shown_ohm(most->judgement->ohm));
    if (check.result == Conformity::outside)
      check.words += fmt::format(
          ", more than {} apart: shorted turns in the one that reads less, or a bad joint or a break "
          "in the other",
          shown_most(allowed));
    else if (check.result == Conformity::too_close)
      check.words +=
          fmt::format("; whether that is more than {} apart is too close to call ({} that it is not)",
                      shown_most(allowed), how_sure(probable.within));
    checks.push_back(std::move(check));
  }
}

// Over three contacts: no resistor network reads more directly than over the third (Klein and Randić 1993);
// and where the nominal values add up, the readings must (common practice, no source: 5 %).
void check_triangle(std::vector<Set_check>& checks, const Leg& whole, const Leg& one, const Leg& other,
                    const Means& means) {
  const double gap = whole.judgement->ohm - one.judgement->ohm - other.judgement->ohm;
  const std::vector<Deviation> doubts = doubts_of({&whole, &one, &other}, means);
  const bool open = whole.judgement->reading.over_range; // the range ends there
  const std::string sum =
      fmt::format("{} reads {}, {} and {} together {}", whole.judgement->test,
                  open ? "OL" : shown_ohm(whole.judgement->ohm), one.judgement->test, other.judgement->test,
                  shown_ohm(one.judgement->ohm + other.judgement->ohm));
  const bool adds_up = !open && whole.nominal > 0 && one.nominal > 0 && other.nominal > 0 &&
                       std::fabs(whole.nominal - one.nominal - other.nominal) < 0.02 * whole.nominal;
  const double allowed = adds_up ? 0.05 * whole.judgement->ohm : 0;
  const Conformity_probability probable = conformity(gap, doubts, {adds_up ? -allowed : -infinity, allowed});
  const Conformity result = decide(probable, means.rule);
  if (!adds_up && result != Conformity::outside) return;
  Set_check check{result, sum};
  if (result == Conformity::outside && gap > 0)
    check.words += ": no winding reads more directly than over its third end; one of the readings is wrong, "
                   "or was taken elsewhere: read all three again";
  else if (result == Conformity::outside)
    check.words += fmt::format(", more than {} apart: the two should add up; look for shorted turns",
                               shown_most(allowed));
  else if (result == Conformity::too_close)
    check.words += fmt::format("; whether they add up to {} is too close to call ({})", shown_most(allowed),
                               how_sure(probable.within));
  else
    check.words += ": they add up";
  checks.push_back(std::move(check));
}

// Each of `wholes` with every two of `legs` that meet in a third contact, and whose other ends are its own.
void check_triangles(std::vector<Set_check>& checks, const std::vector<Leg>& wholes,
                     const std::vector<Leg>& legs, const Means& means) {
  for (const Leg& whole : wholes)
    for (std::size_t j = 0; j < legs.size(); ++j)
      for (std::size_t k = j + 1; k < legs.size(); ++k)
        for (const auto& [joint, end] : {std::pair{legs[j].a, legs[j].b}, std::pair{legs[j].b, legs[j].a}})
          for (const auto& [same, far] : {std::pair{legs[k].a, legs[k].b}, std::pair{legs[k].b, legs[k].a}})
            if (joint == same && joins(whole, end, far))
              check_triangle(checks, whole, legs[j], legs[k], means);
}

}

std::vector<Set_check> set_checks(const Resolved& resolved, std::span<const Judgement> judgements,
                                  const Means& means) {
  std::vector<Set_check> checks;
  std::vector<std::string> done;
  for (const Judgement& first : judgements) {
    if (std::find(done.begin(), done.end(), first.component) != done.end()) continue;
    done.push_back(first.component);
    const std::vector<Leg> legs = legs_of(resolved, judgements, first.component, false);
    check_balance(checks, legs, means);
    check_triangles(checks, legs, legs, means);
    check_triangles(checks, legs_of(resolved, judgements, first.component, true), legs, means);
  }
  return checks;
}

}
