#include "plan/planner.h"

#include <algorithm>

#include "judge/asked.h"
#include "judge/modes.h"
#include "lint/contacts.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "plan/evidence.h"
#include "plan/instructions.h"
#include "plan/words.h"

namespace ohmlore {
namespace {

// An outcome that is less probable than this is not spoken of, nor followed deeper.
constexpr double too_rare = 0.002;
constexpr std::size_t deepest = 3; // tests after an abnormal reading; then one plans again with the readings

// The terminals of a compressor are no place for probes while the circuit holds refrigerant, nor is what lies
// inside a sealed case.
bool is_behind_a_seal(const Profile& profile, const Test& test) {
  const auto& hazards = profile.safety.hazards;
  return test.component && std::any_of(hazards.begin(), hazards.end(), [&](const Hazard& hazard) {
           return hazard.component && *hazard.component == *test.component && hazard.kind &&
                  (*hazard.kind == Hazard_kind::pressure || *hazard.kind == Hazard_kind::sealed_case);
         });
}

// On the part, and not at the ends of what it is one of: no other lies in the path.
bool reads_one_alone(const Resolved& resolved, const Test& test) {
  const Resolved_component* component = resolved.component_of(test);
  if (component == nullptr || !test.side || *test.side != Side::at_component) return false;
  const auto& around = rules::circuits_of(resolved, *component);
  return std::all_of(around.begin(), around.end(), [&](const Circuit* circuit) {
    return circuit->elements.size() < 2 ||
           (circuit->arrangement && *circuit->arrangement == Arrangement::series &&
            !rules::same_ends(circuit->between, test.probes));
  });
}

}

bool Planner::is_undecided(std::size_t entry, const Order_state& state) const {
  const Suspect_kind kind = *situation.storage[entry].kind;
  if (kind == Suspect_kind::board || kind == Suspect_kind::supply) return false;
  bool alive = false;
  for (std::size_t h = 0; h < hypotheses(); ++h) {
    if (situation.failures[h].entry != entry) continue;
    if (is_seen(h) && !situation.storage[entry].not_decidable) return false;
    alive = alive || state.weights[h] > gone;
  }
  return alive;
}

Plan_left Planner::left_of(std::size_t entry) const {
  const Suspect& suspect = situation.storage[entry];
  Plan_left left{situation.culprit_of[entry], {}, {}};
  for (const Value<Mode>& mode : suspect.modes)
    if (mode) left.modes.push_back(*mode);
  if (suspect.not_decidable) left.why = std::string(*suspect.not_decidable);
  return left;
}

std::vector<bool> Planner::gone_between(const Order_state& before, const Order_state& after) const {
  std::vector<bool> is(hypotheses());
  for (std::size_t h = 0; h < hypotheses(); ++h) {
    bool was = false, left = false;
    for (std::size_t k = 0; k < hypotheses(); ++k) {
      if (situation.order.hypotheses[k].culprit != situation.order.hypotheses[h].culprit ||
          situation.failures[k].mode != situation.failures[h].mode)
        continue;
      was = was || before.weights[k] > gone;
      left = left || after.weights[k] > gone;
    }
    is[h] = was && !left;
  }
  return is;
}

std::string Planner::own_tests(std::size_t culprit) const {
  std::string out;
  for (const Named_test& named : situation.tests)
    if (named.test->component && *named.test->component == situation.culprits[culprit].id)
      out += fmt::format("{}{}", out.empty() ? ": " : ", ", named.id);
  return out;
}

bool Planner::perhaps_open(const Order_state& state, bool (*is)(const Resolved_component&)) const {
  for (std::size_t h = 0; h < hypotheses(); ++h) {
    const std::optional<Mode>& mode = situation.failures[h].mode;
    const Culprit& culprit = situation.culprits[situation.order.hypotheses[h].culprit];
    if (state.weights[h] <= 0.02 || culprit.kind != Suspect_kind::component ||
        (mode != Mode::open && mode != Mode::stuck_open))
      continue;
    const Resolved_component* component = resolved.component(culprit.id);
    if (component != nullptr && is(*component)) return true;
  }
  return false;
}

// What to do where an abnormal reading leaves these, and no test of the codes helps further.
std::vector<std::string> Planner::advice(const Order_state& state, std::size_t test,
                                         const std::vector<Showing>& shown) const {
  std::vector<double> weights;
  for (std::size_t c = 0; c < situation.culprits.size(); ++c) weights.push_back(weight_of(state, c));
  std::vector<std::size_t> left;
  for (const std::size_t c : likeliest_first(weights))
    if (weights[c] > 0.02) left.push_back(c);
  const Test& last = *situation.tests[test].test;
  const bool at_plug =
      last.side && (*last.side == Side::at_board_plug || *last.side == Side::at_inline_connector);
  const bool harness = std::any_of(left.begin(), left.end(), [&](std::size_t c) {
    return situation.culprits[c].kind == Suspect_kind::harness;
  });
  const bool sealed = at_plug && is_behind_a_seal(*resolved.document->profile(), last);
  std::size_t parts = 0;
  for (const std::size_t c : left) parts += situation.culprits[c].kind == Suspect_kind::component;
  const bool is_of_one_alone = left.size() == 1 && last.component &&
                               *last.component == situation.culprits[left[0]].id &&
                               reads_one_alone(resolved, last);
  std::vector<std::string> out;
  for (const std::size_t c : left) {
    double tripped = 0;
    for (std::size_t h = 0; h < hypotheses(); ++h)
      if (situation.order.hypotheses[h].culprit == c && situation.failures[h].mode == Mode::protector_open)
        tripped += state.weights[h];
    const Resolved_component* component = resolved.component(situation.culprits[c].id);
    if (tripped <= 0.02 || component == nullptr) continue;
    const std::string_view mind = mind_the_protector(*component);
    if (std::find(out.begin(), out.end(), mind) == out.end()) out.emplace_back(mind);
  }
  if (shown == std::vector{Showing::over_range} && is_path_of_several(resolved, last, Arrangement::parallel))
    out.emplace_back(look_at_the_way_to_all);
  if (left.empty())
    out.push_back(
        "nothing that is listed reads so: check the leads, the contacts and the meter, and read once "
        "more; then think of two faults at once, and of exchanged plugs");
  else if ((parts > 1 && !compares_twins(last)) ||
           (parts == 1 && !is_of_one_alone && several_parts(resolved, situation, test)))
    out.emplace_back(read_each_by_itself);
  else if (sealed && parts > 0)
    out.push_back("this part is opened only by those licensed for it, as the cautions say: look along the "
                  "harness before it is condemned");
  else if (harness && parts > 0)
    out.push_back(
        "read the same two ends on the part itself: healthy there, it is the harness; the same as here, "
        "it is the part");
  else if (parts == 1 && left.size() == 1 &&
           !(last.component && *last.component == situation.culprits[left[0]].id))
    out.push_back(fmt::format("before it is replaced, read that part by itself{}", own_tests(left[0])));
  else if (at_plug && parts == 1)
    out.push_back(
        "before it is replaced, read the same on the part itself: healthy there, it is the harness");
  if (left.size() == 1 && harness && parts == 0) {
    if (at_plug && !sealed && !several_parts(resolved, situation, test))
      out.push_back("first read the same two ends on the part itself: where it is not healthy there either, "
                    "the part has a "
                    "fault too");
    out.push_back(
        "look along the harness for chafing, crushed pins and damp, and mend it as the maker allows");
  }
  const bool differs = std::any_of(shown.begin(), shown.end(), [](Showing one) {
    return one == Showing::higher || one == Showing::lower; // what is open or short is so by itself
  });
  if (differs && compares_twins(last) && last.expect.with) out.push_back(which_of_two(*last.expect.with));
  const Resolved_component* of_last = resolved.component_of(last);
  if (perhaps_open(state, rules::reads_through_diodes)) out.emplace_back(mind_the_diodes);
  if (of_last != nullptr && of_last->is(Component_kind::photocell)) out.emplace_back(mind_the_light);
  const auto& healthy = situation.tests[test].healthy;
  if (healthy && healthy->low >= fingers_matter_from &&
      std::find(shown.begin(), shown.end(), Showing::lower) != shown.end())
    out.emplace_back(mind_the_fingers);
  if (perhaps_open(state, opens_to_protect)) out.emplace_back(find_what_opened_it);
  return out;
}

Plan_outcome Planner::outcome(const Order_state& state, std::size_t test, std::vector<Showing> shown,
                              std::size_t depth) {
  Plan_outcome out;
  const bool healthy = shown == std::vector<Showing>{Showing::healthy};
  for (const Showing one : shown) out.probability += probability_of(situation.order, state, test, one);
  const Order_state next = after(situation.order, state, test, shown);
  // Of what the test does not see an abnormal reading excludes nothing, though it explains it as little.
  std::vector<bool> excluded = gone_between(state, next);
  for (std::size_t h = 0; h < hypotheses(); ++h)
    excluded[h] = excluded[h] && is_said_to_exclude(situation, test, h) &&
                  situation.order.hypotheses[h].shows[test][0] < 1;
  out.rules_out = listed(excluded, state);
  std::vector<bool> points(hypotheses()), hides(hypotheses());
  for (std::size_t h = 0; h < hypotheses(); ++h) {
    const double passes = situation.order.hypotheses[h].shows[test][0];
    points[h] = next.abnormal && next.weights[h] > gone;
    hides[h] = healthy && state.weights[h] > gone && next.weights[h] > gone && passes < 1;
  }
  out.points_to = listed(points, next);
  out.not_seen = listed(hides, next);
  if (const auto follow = next_test(situation.order, next)) {
    out.next = std::string(situation.tests[*follow].id);
    if (next.abnormal) {
      asked.push_back(*follow);
      asked_in.push_back(next);
      if (depth < deepest) out.outcomes = outcomes(next, *follow, depth + 1);
    }
  } else if (next.abnormal) {
    out.then = advice(next, test, shown);
  }
  out.words = shown_words(shown, *situation.tests[test].test);
  out.shown = std::move(shown);
  return out;
}

std::vector<Plan_outcome> Planner::outcomes(const Order_state& state, std::size_t test, std::size_t depth) {
  std::vector<Plan_outcome> all;
  for (std::size_t i = 0; i < showing_count; ++i) {
    const auto shown = static_cast<Showing>(i);
    if (probability_of(situation.order, state, test, shown) < too_rare && shown != Showing::healthy) continue;
    if (probability_of(situation.order, state, test, shown) <= gone) continue;
    Plan_outcome one = outcome(state, test, {shown}, depth);
    // Readings that say the same are one outcome.
    const auto alike = std::find_if(all.begin(), all.end(), [&](const Plan_outcome& other) {
      return other.shown[0] != Showing::healthy && shown != Showing::healthy &&
             other.points_to == one.points_to && other.next == one.next;
    });
    if (alike == all.end()) {
      all.push_back(std::move(one));
    } else {
      std::vector<Showing> both = alike->shown;
      both.push_back(shown);
      *alike = outcome(state, test, std::move(both), depth);
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const Plan_outcome& a, const Plan_outcome& b) {
    const bool first = a.shown[0] == Showing::healthy, second = b.shown[0] == Showing::healthy;
    if (first != second) return first;
    return !first && a.probability > b.probability + gone;
  });
  return all;
}

// The line of steps as long as everything reads healthy, and what the other outcomes ask for.
void Planner::lay_out(Order_state state) {
  std::vector<bool> placed(situation.storage.size()), in_line(situation.tests.size());
  while (const auto test = next_test(situation.order, state)) {
    Plan_step step = instructions(resolved, situation, state, *test, request.temperature);
    double likeliest = 0; // entry of which it sees something
    for (std::size_t h = 0; h < hypotheses(); ++h) {
      const std::size_t entry = situation.failures[h].entry;
      if (state.weights[h] <= gone || situation.order.hypotheses[h].shows[*test][0] >= 1) continue;
      step.looked_at += state.weights[h];
      likeliest = std::max(likeliest, situation.weight_of[entry]);
    }
    for (std::size_t entry = 0; entry < placed.size(); ++entry) {
      if (placed[entry] || situation.weight_of[entry] <= likeliest + gone || !is_undecided(entry, state))
        continue;
      placed[entry] = true;
      step.look_first.push_back(left_of(entry));
    }
    step.outcomes = outcomes(state, *test, 0);
    plan.steps.push_back(std::move(step));
    in_line[*test] = true;
    state = after(situation.order, state, *test, {Showing::healthy});
  }
  for (std::size_t i = 0; i < asked.size(); ++i) {
    if (in_line[asked[i]]) continue;
    in_line[asked[i]] = true;
    plan.more.push_back(instructions(resolved, situation, asked_in[i], asked[i], request.temperature));
  }
  for (std::size_t c = 0; c < situation.nobody(); ++c) {
    Plan_left left{c, {}, {}};
    for (const std::size_t h : likeliest_first(state.weights)) {
      if (situation.order.hypotheses[h].culprit != c || state.weights[h] <= gone) continue;
      const auto& mode = situation.failures[h].mode;
      if (mode && std::find(left.modes.begin(), left.modes.end(), *mode) == left.modes.end())
        left.modes.push_back(*mode);
      const Suspect& entry = situation.storage[situation.failures[h].entry];
      if (entry.not_decidable && left.why.find(*entry.not_decidable) == std::string::npos)
        left.why += fmt::format("{}{}", left.why.empty() ? "" : "; ", *entry.not_decidable);
    }
    if (weight_of(state, c) > gone) plan.left.push_back(std::move(left));
  }
  std::stable_sort(plan.left.begin(), plan.left.end(), [&](const Plan_left& a, const Plan_left& b) {
    return weight_of(state, a.suspect) > weight_of(state, b.suspect) + gone;
  });
}

}
