#include "ohmlore/judge.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>

#include "judge/asked.h"
#include "judge/budget.h"
#include "judge/case.h"
#include "judge/modes.h"
#include "judge/others.h"
#include "judge/remarks.h"
#include "judge/settle.h"
#include "judge/several.h"
#include "judge/shown.h"
#include "judge/typed.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "model/names.h"
#include "model/spoken.h"
#include "ohmlore/cautions.h"

namespace ohmlore {
namespace {

using namespace rules;

// The temperature that the reading of a sensor would mean.
void say_what_is_meant(Judgement& judgement, const Case& one) {
  const Known& known = one.known;
  const Expected& expected = one.expected;
  if (known.beyond || !expected.model || expected.part_of_it ||
      !is_temperature_sensor(*expected.component, *expected.model))
    return;
  judgement.means = expected.kelvin_of(known.ohm);
  const double half_width = half_width_of(known);
  const Interval read = {std::max(known.ohm - half_width, 1e-3), known.ohm + half_width};
  judgement.means_between =
      model_temperatures(*expected.model, read, expected.kelvin_range(), Taken::literally, expected.between);
  if (judgement.means && judgement.temperature)
    judgement.deviation = *judgement.means - judgement.temperature->kelvin;
}

// What was said of failure modes is undecided again.
void reopen(Judgement& judgement, Mode_verdict said, std::string_view why) {
  for (Mode_answer& one : judgement.modes)
    if (one.verdict == said) one = {one.mode, Mode_verdict::undecided, std::string(why)};
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

// Nothing that is open rises, as it conducted at first; nothing that is stuck changes, and nothing that comes
// and goes stays steady; no broken track is swept evenly.
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
  if (is_swept(test))
    exclude({Mode::open, Mode::high_contact_resistance, Mode::intermittent, Mode::seized},
            "with it the sweep would not have been even");
  if (test.response.kind && *test.response.kind == Response_kind::steady_when_moved)
    exclude({Mode::intermittent}, "with it the reading would have moved");
}

// At rest a healthy one may read so: that fits no failure.
void excuse_at_rest(Judgement& judgement, const Case& one) {
  judgement.result = one.request.answered ? Conformity::within : Conformity::too_close;
  reopen(judgement, Mode_verdict::fits, "at rest a healthy one reads so too");
}

Judgement judgement_of(const Case& one) {
  Judgement judgement;
  judgement.test = std::string(one.id);
  judgement.component = std::string(one.expected.component->id);
  if (const auto name = one.expected.component->get(&Component_type::name))
    judgement.name = std::string(**name);
  judgement.probes = contacts_of(one.test);
  if (one.test.side) judgement.side = std::string(word_of(*one.test.side));
  judgement.reading = one.reading;
  if (one.known.beyond) judgement.reading.ohm = *one.known.beyond;
  judgement.ohm = one.known.beyond ? *one.known.beyond : one.known.ohm;
  if (!one.beside_twin()) judgement.temperature = one.request.temperature;
  return judgement;
}

std::string why_no_limits(const Case& one) {
  const Expected& expected = one.expected;
  const Interval& room = one.means.room;
  const bool in_room = expected.rows_reach && expected.rows_reach->overlaps(room);
  return fmt::format("nothing says what {} reads at {}: {} does not reach there{}{}",
                     quoted(expected.component->id),
                     one.known.room ? celsius(*one.known.room) : celsius(one.known.x),
                     expected.model ? "its model" : "the test",
                     !expected.rows_reach ? ""
                     : one.known.room     ? fmt::format(", only {}", celsius(*expected.rows_reach))
                                          : fmt::format(", only {}; read it again at that temperature",
                                                        celsius(*expected.rows_reach)),
                     !one.request.temperature ? "; give the temperature of the part with --temperature"
                     : in_room ? fmt::format("; without --temperature all of {} is judged", celsius(room))
                               : "");
}

// What holds both ways: each probability at least and at most.
void take_in(Judged& judged, const Judged& other, const Decision_rule& rule) {
  const auto each = [](Conformity_probability& into, const Conformity_probability& from, auto of_two) {
    into = {of_two(into.below, from.below), of_two(into.within, from.within), of_two(into.above, from.above)};
  };
  each(judged.least, other.least, [](double a, double b) { return std::min(a, b); });
  each(judged.most, other.most, [](double a, double b) { return std::max(a, b); });
  judged.result = decide({judged.least, judged.most}, rule);
}

// Limits as those of a copper winding change: at its coldest, where it likeliest reads that, at its warmest.
std::vector<Limits_at> as_of_copper(const Limits_at& stated, const Judged& found, const Known& known,
                                    const Case& one) {
  std::vector<Limits_at> carried;
  const auto flat = flat_limits(one);
  if (!flat) return carried;
  const auto [least, most] = flat->change;
  const double likeliest = std::clamp(known.ohm / found.ohm.middle(), least, most);
  for (const double factor : {least, likeliest, most})
    carried.emplace_back([stated, factor](double x) {
      auto limits = stated(x);
      if (limits) limits = {limits->low * factor, limits->high * factor};
      return limits;
    });
  return carried;
}

// Away from where limits hold, only what is so by them and by those of copper is sure. Whether copper is
// another case.
bool take_in_copper(Judged& found, const Known& known, const Limits_at& stated, const Case& one) {
  const Conformity as_stated = found.result;
  bool differs = false;
  for (const Limits_at& carried : as_of_copper(stated, found, known, one))
    if (const auto as_copper = judged(known, carried, one.means, {})) {
      differs = differs || as_copper->result != as_stated;
      take_in(found, *as_copper, one.means.rule);
    }
  return differs;
}

// The same of a reading by what is stated of the part, and what settles it.
void judge_as_copper(Judged& found, const Known& known, const Case& one, std::vector<std::string>& settle) {
  if (!take_in_copper(found, known, limits_of(one), one)) return;
  const Flat_limits flat = *flat_limits(one);
  std::string again = fmt::format(
      "read it again at {}, where its limits hold: of copper, as most windings are, they would be "
      "{} to {} now",
      celsius(flat.held), shown_ohm(found.ohm.low * flat.change.low),
      shown_ohm(found.ohm.high * flat.change.high));
  if (std::find(settle.begin(), settle.end(), again) == settle.end()) settle.push_back(std::move(again));
}

// What failure it may be, likewise: a break and a short are often told whatever it is wound of.
void reopen_by_metal(Judgement& judgement, const Case& one) {
  for (const Limits_at& carried : as_of_copper(limits_of(one), judgement.service, one.known, one)) {
    const auto as_copper = judged(one.known, carried, one.means, {});
    if (!as_copper) continue;
    const auto answers = mode_answers(one, one.known, *as_copper, carried);
    for (Mode_answer& mode : judgement.modes) {
      const bool alike = std::any_of(answers.begin(), answers.end(), [&](const Mode_answer& other) {
        return other.mode == mode.mode && other.verdict == mode.verdict;
      });
      if (!alike && mode.verdict != Mode_verdict::not_seen)
        mode = {mode.mode, Mode_verdict::undecided,
                "at this temperature a winding of copper reads otherwise"};
    }
  }
}

// By what still does its job, and by what it is made within. False where nothing says what that is.
bool judge_by_limits(Judgement& judgement, const Case& one) {
  const Expected& expected = one.expected;
  if (!one.by_ohm() && !limits_where_asked(expected, one.known)) return false;
  const auto middle = middle_of(one);
  const auto service = judged(one.known, limits_of(one), one.means, middle);
  if (!service) return false;
  judgement.service = *service;
  judgement.service.basis = expected.basis;
  judgement.service.words = expected.words;
  judge_as_copper(judgement.service, one.known, one, judgement.settle);
  judgement.result = judgement.service.result;
  if (!one.known.room) judgement.nominal = middle(one.known.x);
  if (one.beside_twin()) return true;
  judgement.by_temperature = expected.varies;
  const auto manufacturing = [&](double x) { return expected.manufacturing_beside(x); };
  if (auto made = judged(one.known, manufacturing, one.means, middle)) {
    take_in_copper(*made, one.known, manufacturing, one);
    made->basis = Limit_basis::manufacturing;
    made->words = expected.manufacturing_words;
    judgement.manufacturing = std::move(*made);
  }
  return true;
}

// How sure that is, and what the reading looks like.
void explain(Judgement& judgement, const Case& one) {
  if (!one.known.beyond) {
    judgement.budget = budget_of(one);
    judgement.uncertainty = combined(judgement.budget);
  }
  judgement.modes = mode_answers(one, one.known, judgement.service, limits_of(one));
  say_what_is_meant(judgement, one);
  if (judgement.result != Conformity::within && !one.beside_twin())
    judgement.others = others_of(one, judgement.service.most.within);
}

// The magnet of a turbine rests where the contact is not as its limits ask, and no reading says otherwise.
bool is_at_rest(const Judgement& judgement, const Case& one) {
  return rests_in_either(*one.expected.component, one.test) && !one.request.after &&
         one.request.answered.value_or(true) &&
         is_other_state(*one.expected.component, one.known, judgement.service);
}

constexpr const char* as_exchanged = "with the leads exchanged a healthy one reads so too";

// Each of the two readings is what the other one should be.
void excuse_exchanged(Judgement& judgement, const Case& one) {
  judgement.result = Conformity::too_close;
  reopen(judgement, Mode_verdict::fits, as_exchanged);
  judgement.settle.push_back(fmt::format(
      "each reading is what the other should be: exchange the leads{}, and give both readings again; some "
      "meters measure with the minus on their red lead",
      one.test.positive ? fmt::format(" so that the positive one is on {}", text_of(*one.test.positive))
                        : ""));
}

// One reading alone may be what the other should be.
void judge_exchanged_leads(Judgement& judgement, const Case& one) {
  if (!one.request.reverse && !asks_both_directions(one.test)) return;
  std::string none;
  const auto back = expected_of(one.resolved, one.test, true, none);
  const auto is_within = [&](const Known& known, const Limits_at& limits) {
    const auto found = judged(known, limits, one.means, {});
    return found && found->result == Conformity::within;
  };
  if (!one.request.reverse) {
    if (!back || judgement.service.result != Conformity::outside || !is_within(one.known, service_of(*back)))
      return;
    judgement.result = Conformity::too_close;
    for (const Mode_verdict said : {Mode_verdict::fits, Mode_verdict::excluded})
      reopen(judgement, said, as_exchanged);
    return;
  }
  if (!back || !asks_both_directions(one.test)) {
    judgement.remarks.push_back(
        "this test does not ask for exchanged leads: the reading with --reverse is not judged");
    return;
  }
  const Known reverse = known_of(*one.request.reverse, one.means);
  judgement.reverse = judged(reverse, service_of(*back), one.means, {});
  if (!judgement.reverse) return;
  judgement.reverse->basis = back->basis;
  judgement.reverse->words = back->words;
  judgement.result = worse(judgement.result, judgement.reverse->result);
  if (judgement.reverse->result != Conformity::outside) return;
  reopen(judgement, Mode_verdict::excluded, "with the leads exchanged it reads outside its limits");
  if (judgement.service.result == Conformity::outside && is_within(reverse, limits_of(one)) &&
      is_within(one.known, service_of(*back)))
    excuse_exchanged(judgement, one);
}

// What else lies in the path, and not the harness, may be why plug and part differ: in a row it adds, side by
// side it takes away.
bool others_explain(const Case& one, const Known& part) {
  const Known& plug = one.known;
  const bool more = !part.beyond && (plug.beyond || plug.ohm > part.ohm);
  const bool less = !plug.beyond && (part.beyond || plug.ohm < part.ohm);
  const auto circuits = circuits_read(one.resolved, one.test);
  return std::any_of(circuits.begin(), circuits.end(), [&](const Circuit* circuit) {
    const bool in_a_row = circuit->arrangement && *circuit->arrangement == Arrangement::series;
    const bool side_by_side = circuit->arrangement && *circuit->arrangement == Arrangement::parallel;
    return (more && !side_by_side) || (less && !in_a_row);
  });
}

void judge_plug_against_part(Judgement& judgement, const Case& one, std::optional<Conformity> answer) {
  if (!one.request.at_part) return;
  Known part = known_of(*one.request.at_part, one.means);
  part.x = one.known.x;
  part.about = one.known.about;
  part.room = one.known.room;
  auto of_part = judged(part, limits_of(one), one.means, middle_of(one));
  if (!of_part) return;
  if (others_explain(one, part)) {
    judgement.remarks.emplace_back(of_which_of_several);
    return;
  }
  const Resolved_component& component = *one.expected.component;
  const bool by_chance =
      rests_in_either(component, one.test) && answer != Conformity::outside &&
      (is_other_state(component, one.known, judgement.service) || is_other_state(component, part, *of_part));
  if (by_chance) {
    judgement.remarks.emplace_back("plug and part are not compared: where the magnet rests, a healthy "
                                   "contact is open or closed; read both while it is within its limits");
    return;
  }
  if (const auto prefix = mind_the_prefix(*one.request.at_part, *of_part); !prefix.empty())
    judgement.remarks.push_back("on the part " + prefix);
  judge_as_copper(*of_part, part, one, judgement.settle);
  judgement.harness = harness_verdict(judgement, one.known, part, *of_part, one.means);
  judgement.result = worse(judgement.result, judgement.harness->result);
  compare_with_part(judgement, mode_answers(one, part, *of_part, limits_of(one)));
}

// A contact that did not change is stuck as it reads: closed here.
bool stayed_closed(Judgement& judgement, const Case& one) {
  if (!toggles(one.test) || one.request.at_part || one.known.beyond ||
      !is_closed(*one.expected.component, one.known.ohm))
    return false;
  for (Mode_answer& answer : judgement.modes)
    if (answer.mode == Mode::stuck_closed) answer = {answer.mode, Mode_verdict::fits, "it stayed closed"};
  return true;
}

// What does not stay steady while it is moved is what was looked for.
void find_what_came_and_went(Judgement& judgement, const Test& test, Conformity answer) {
  if (!test.response.kind || *test.response.kind != Response_kind::steady_when_moved) return;
  const bool changed = answer == Conformity::outside;
  for (Mode_answer& one : judgement.modes)
    if (one.mode == Mode::intermittent && (changed || !judgement.reading.over_range))
      one = {one.mode, changed ? Mode_verdict::fits : Mode_verdict::undecided,
             changed ? "the reading changed while it was moved"
                     : "whether it stayed steady while it was moved is too close to call"};
}

void take_in_answer(Judgement& judgement, const Case& one, std::optional<Conformity> answer) {
  const Test& test = one.test;
  if (!answer) return;
  judgement.result = worse(judgement.result, *answer);
  if (*answer == Conformity::outside && stayed_closed(judgement, one)) return;
  if (*answer == Conformity::outside) {
    reopen(judgement, Mode_verdict::excluded, "it does not answer as a healthy one does");
  }
  if (*answer == Conformity::within)
    exclude_by_answer(judgement, test);
  else
    find_what_came_and_went(judgement, test, *answer);
}

void remark_on_answer(Judgement& judgement, const Case& one) {
  const Test& test = one.test;
  const auto& answered = one.request.answered;
  if (answered && !asks_for_response(test)) {
    judgement.remarks.emplace_back(no_answer_asked);
  } else if (answered) {
    if (!*answered) judgement.remarks.emplace_back("seen by eye, it does not answer as the test asks");
    if (judgement.response &&
        judgement.response->result == (*answered ? Conformity::outside : Conformity::within))
      judgement.remarks.emplace_back("what was seen by eye and the reading after it contradict each other: "
                                     "the worse of the two counts; do it again");
  } else if (!one.request.after && test.response.kind) {
    const bool is_missing_half = watches_it_rise(test) || rests_in_either(*one.expected.component, test);
    // Else what settles it asks for it.
    if (is_missing_half && judgement.result != Conformity::outside) return;
    const bool by_warmth = *test.response.kind == Response_kind::falls_when_warmed ||
                           *test.response.kind == Response_kind::rises_when_warmed;
    // Nothing that is outside becomes healthy by its answer to warmth.
    if (by_warmth && judgement.service.result == Conformity::outside) return;
    judgement.remarks.push_back(fmt::format(
        "the test asks for a response too ({}{}): give the reading after it with --after",
        spoken(*test.response.kind), test.response.how ? ": " + quoted_whole(*test.response.how) : ""));
  }
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

void ask_for_missing_half(Judgement& judgement, const Case& one, bool at_rest) {
  std::string missing = missing_half(*one.expected.component, one.test, one.request);
  if (missing.empty()) return;
  if (judgement.result == Conformity::outside) {
    if (asks_both_directions(one.test)) judgement.remarks.push_back(std::move(missing));
    return;
  }
  judgement.result = Conformity::too_close;
  const bool only_that = judgement.service.result != Conformity::too_close || at_rest;
  (only_that ? judgement.settle : judgement.remarks).push_back(std::move(missing));
}

std::optional<Judgement> judge_one(const Resolved& resolved, const Test& test, Text id,
                                   const Judge_request& request, const Means& means, std::string& problem) {
  const auto found = case_of(resolved, test, id, request, means, problem);
  if (!found) return std::nullopt;
  const Case& one = *found;
  Judgement judgement = judgement_of(one);
  if (!judge_by_limits(judgement, one)) {
    problem = why_no_limits(one);
    return std::nullopt;
  }
  const bool hangs_on_metal = !judgement.settle.empty(); // nothing else is to be settled so far
  explain(judgement, one);
  if (hangs_on_metal) reopen_by_metal(judgement, one);
  const bool at_rest = is_at_rest(judgement, one);
  if (at_rest) excuse_at_rest(judgement, one);
  judge_exchanged_leads(judgement, one);
  if (request.after)
    judgement.response = response_verdict(test, one.expected, known_of(request.reading, means),
                                          known_of(*request.after, means), request, means);
  const auto answer = answer_of(test, request, judgement.response);
  judge_plug_against_part(judgement, one, answer);
  take_in_answer(judgement, one, answer);
  remark_on_answer(judgement, one);
  add_remarks(judgement, one);
  if (judgement.service.result == Conformity::too_close && !hangs_on_metal) say_what_settles(judgement, one);
  ask_for_missing_half(judgement, one, at_rest);
  return judgement;
}

}

Conformity Verdict::result() const {
  Conformity worst = judgements.empty() || !problems.empty() ? Conformity::too_close : Conformity::within;
  for (const Judgement& one : judgements) worst = worse(worst, one.result);
  for (const Set_check& check : sets) worst = worse(worst, check.result);
  return worst;
}

// In ohm (common practice, no source).
static constexpr double most_of_a_meter = 10e9;

// What parse_reading refuses as text, a program may hand over as it came from a meter.
static std::string problem_of(const Reading& reading) {
  if (!std::isfinite(reading.ohm) || !std::isfinite(reading.half_digit) || reading.half_digit < 0)
    return fmt::format("a reading of {} Ω ± {} Ω is none; what is beyond the range is said by over_range",
                       reading.ohm, reading.half_digit);
  if (reading.ohm > most_of_a_meter)
    return fmt::format("{} is no reading of a multimeter, the best of which end at some {}: look at the unit "
                       "on its display, and write OL where that shows no number",
                       describe(reading.ohm, Dimension::resistance), shown_ohm(most_of_a_meter));
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
                     shown_ohm(half_width_of(known_of(reading, means))), why_negative);
}

// A number in °C, where kelvin are asked for, would condemn a healthy part.
static std::string problem_of(const std::optional<Part_temperature>& temperature) {
  if (!temperature) return {};
  if (!is_magnitude(temperature->half_width) || !is_magnitude(temperature->minutes_since_running.value_or(0)))
    return fmt::format("a temperature ± {} K, {} min after running, is none", temperature->half_width,
                       temperature->minutes_since_running.value_or(0));
  return no_such_temperature(temperature->kelvin);
}

static std::string problem_of(const Means& means) {
  const auto is_risk = [](double share) { return share >= 0 && share <= 0.5; };
  if (!is_risk(means.rule.false_acceptance) || !is_risk(means.rule.false_rejection))
    return fmt::format("a rule that accepts {} and {} as probabilities of a wrong decision is none",
                       means.rule.false_acceptance, means.rule.false_rejection);
  for (const double end : {means.room.low, means.room.high})
    if (std::string none = no_such_temperature(end); !none.empty()) return "the room: " + none;
  if (means.room.low > means.room.high) return "the room's temperatures do not rise";
  return no_such_means(means.meter, means.leads);
}

static std::string problem_of(const Judge_request& request, const Means& means) {
  std::string problem = problem_of(means);
  for (const auto* temperature : {&request.temperature, &request.after_temperature})
    if (problem.empty()) problem = problem_of(*temperature);
  for (const Reading* reading : readings_of(request)) {
    if (problem.empty()) problem = problem_of(*reading);
    if (problem.empty()) problem = below_leads(*reading, means);
  }
  return problem;
}

Verdict judge(const Resolved& resolved, std::span<const Judge_request> requests, const Judge_means& stated) {
  Verdict verdict;
  if (resolved.document->profile() == nullptr) {
    verdict.cautions = cautions_for(Profile());
    verdict.problems.emplace_back("there is nothing to judge by: the document is no profile");
    return verdict;
  }
  const Profile& profile = *resolved.document->profile();
  const Means means = means_of(resolved.surroundings.corpus, stated);
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
