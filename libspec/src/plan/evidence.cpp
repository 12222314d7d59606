#include "plan/evidence.h"

#include <algorithm>

#include <fmt/format.h>

#include "judge/asked.h"
#include "judge/course.h"
#include "judge/measuring.h"
#include "judge/modes.h"
#include "judge/remarks.h"
#include "judge/several.h"
#include "judge/shown.h"
#include "lint/contacts.h"
#include "lint/readings.h"
#include "model/names.h"
#include "plan/words.h"

namespace ohmlore {
namespace {

// Of a probability: below that, it is not to be reckoned with.
constexpr double hardly = 0.05;
// Where readings contradict each other, a failure that does not explain one of them.
constexpr double unexplained = 0.01;

// Answers that only moving or watching shows: without them the reading says nothing of what comes and goes.
bool shows_by_response(const Test& test) {
  if (!test.response.kind) return false;
  switch (*test.response.kind) {
  case Response_kind::steady_when_moved:
  case Response_kind::smooth_sweep:
  case Response_kind::toggles_with_magnet: return true;
  default: return false;
  }
}

// What a contact that a magnet is to change reads where it does not; nothing where it is neither open nor
// closed.
std::vector<Showing> shown_where_stuck(const Test& test, const Resolved_component* component,
                                       const Judgement& judgement) {
  if (component == nullptr || !toggles(test)) return {};
  if (rules::is_open(*component, judgement.ohm, judgement.reading.over_range)) return {Showing::over_range};
  if (!rules::is_closed(*component, judgement.ohm) && judgement.service.result != Conformity::within)
    return {};
  if (component->get(&Component_type::series_resistance)) return {Showing::near_zero, Showing::lower};
  return {Showing::near_zero};
}

// An OL is a reading anywhere above the end of its range, up to infinity.
std::vector<Showing> shown_by_over_range(const Judgement& judgement, double range_end) {
  using enum Showing;
  const Judged& service = judgement.service;
  if (service.result == Conformity::within) return {healthy};
  if (std::isinf(service.ohm.high)) return {healthy, lower}; // no reading is too high
  std::vector<Showing> shown;
  if (service.result == Conformity::too_close) shown.push_back(healthy);
  shown.push_back(over_range);
  if (judgement.ohm < open_from(service.ohm, range_end)) shown.push_back(higher);
  if (service.result == Conformity::too_close && judgement.ohm < service.ohm.low) shown.push_back(lower);
  return shown;
}

std::vector<Showing> shown_by(const Judgement& judgement, const Resolved_component* component,
                              const std::optional<Interval>& healthy_band, double range_end) {
  using enum Showing;
  if (judgement.reading.over_range) return shown_by_over_range(judgement, range_end);
  const Judged& service = judgement.service;
  const Showing up = higher;
  const Showing down = judgement.ohm <= rules::near_zero_at_most(healthy_band) ? near_zero : lower;
  if (service.result == Conformity::within) return {healthy};
  if (service.result == Conformity::outside && judgement.ohm >= open_from(service.ohm, range_end))
    return {over_range};
  // A broken path need not read OL. What meter and leads may be off counts in.
  if (service.result == Conformity::outside &&
      judgement.ohm + 2 * judgement.uncertainty >= rules::perhaps_broken_from(component, service.ohm))
    return {over_range, higher};
  if (service.result == Conformity::outside) return {service.least.above >= service.least.below ? up : down};
  std::vector<Showing> shown = {healthy};
  if (service.most.above > hardly) shown.push_back(up);
  if (service.most.below > hardly) shown.push_back(down);
  return shown;
}

double share(const Showing_shares& shares, const std::vector<Showing>& shown) {
  double sum = 0;
  for (const Showing one : shown) sum += shares[static_cast<std::size_t>(one)];
  return std::min(sum, 1.0);
}

bool is_healthy(const std::vector<Showing>& shown) {
  return std::find(shown.begin(), shown.end(), Showing::healthy) != shown.end();
}

void add(const std::vector<Showing>& from, std::vector<Showing>& to) {
  for (const Showing one : from)
    if (std::find(to.begin(), to.end(), one) == to.end()) to.push_back(one);
}

// Healthy at the plug and not on the part itself: what lies beside the part hides its fault there.
bool is_hidden(const Evidence& evidence) {
  if (!is_healthy(evidence.at_plug) || evidence.at_part.empty()) return false;
  return std::none_of(evidence.at_part.begin(), evidence.at_part.end(), [&](Showing shown) {
    return std::find(evidence.at_plug.begin(), evidence.at_plug.end(), shown) != evidence.at_plug.end();
  });
}

// Of two readings that are too close to call a rough one takes nothing back of a finer one before it.
void keep_the_finer(const Evidence& before, Evidence& again) {
  const bool all_left = std::all_of(before.at_plug.begin(), before.at_plug.end(), [&](Showing one) {
    return std::find(again.at_plug.begin(), again.at_plug.end(), one) != again.at_plug.end();
  });
  if (!all_left || again.at_plug.size() == before.at_plug.size()) return;
  again.at_plug = before.at_plug;
  again.settle = before.settle;
}

}

bool Evidence::abnormal() const {
  return changed || !is_healthy(at_plug) || (!at_part.empty() && !is_healthy(at_part));
}
bool Evidence::undecided() const { return !abnormal() && at_plug.size() > 1; }
bool Evidence::in_the_harness() const { return !is_healthy(at_plug) && is_healthy(at_part); }

Evidence repeated(const Evidence& before, Evidence again) {
  const auto both = [](const std::vector<Showing>& a, const std::vector<Showing>& b) {
    return std::any_of(a.begin(), a.end(),
                       [&](Showing one) { return std::find(b.begin(), b.end(), one) != b.end(); });
  };
  const bool parts_differ =
      !before.at_part.empty() && !again.at_part.empty() && !both(before.at_part, again.at_part);
  const bool anew = before.undecided();
  if (anew && again.undecided()) keep_the_finer(before, again);
  // Once more the same would say no more.
  again.no_nearer = before.undecided() && again.undecided() && again.at_plug.size() >= before.at_plug.size();
  // What was too close to call is read anew; what was sure on the part itself stays.
  if (anew && before.at_part.size() != 1) return again;
  again.read = hull(before.read, again.read);
  again.healthy = hull(before.healthy, again.healthy);
  again.changes = hull(before.changes, again.changes);
  again.damp_from = std::min(before.damp_from, again.damp_from);
  again.changed = before.changed || parts_differ || (!anew && !both(before.at_plug, again.at_plug));
  add(before.at_part, again.at_part);
  again.hidden = again.hidden || before.hidden;
  if (!before.abnormal() && !again.abnormal()) return again;
  if (!anew) add(before.at_plug, again.at_plug);
  if (again.changed) add({Showing::unsteady}, again.at_plug);
  // One of them was abnormal: only what explains that is left.
  if (!is_healthy(before.at_plug) || again.changed) std::erase(again.at_plug, Showing::healthy);
  if (again.changed)
    again.settle.push_back(
        "it changed between two measurements: what is wrong comes and goes, so move the leads, the plug and "
        "the "
        "part while it is read. Where one of them was taken wrongly, or before a repair, leave that one out");
  return again;
}

bool several_parts(const Resolved& resolved, const Situation& situation, std::size_t test) {
  const bool twins = compares_twins(*situation.tests[test].test); // each on contacts of its own
  std::size_t seen = 0;
  for (std::size_t c = 0; c < situation.nobody() && !twins; ++c) {
    if (situation.culprits[c].kind != Suspect_kind::component) continue;
    seen += std::any_of(situation.order.hypotheses.begin(), situation.order.hypotheses.end(),
                        [&](const Hypothesis& one) { return one.culprit == c && one.shows[test][0] < 1; });
  }
  if (seen > 1) return true;
  const Resolved_component* component = resolved.component_of(*situation.tests[test].test);
  if (component == nullptr) return false;
  const auto& around = rules::circuits_of(resolved, *component);
  return std::any_of(around.begin(), around.end(),
                     [](const Circuit* circuit) { return circuit->elements.size() > 1; });
}

namespace {

// A reading of one test, and whether it answered as that asks.
struct Seen_reading {
  const Test& test;
  const Resolved_component* component;
  const Judge_request& reading;
  const Judgement& judgement;
  bool answers, does_not_answer; ///< neither: nothing says so

  // Only its answer shows that it is healthy.
  bool needs_answer() const { return !answers && (shows_by_response(test) || watches_it_rise(test)); }
  bool closes_when_moved() const {
    return does_not_answer && test.response.kind && *test.response.kind == Response_kind::steady_when_moved &&
           judgement.reading.over_range && reading.after && !reading.after->over_range;
  }
  bool lacks_direction() const { return !judgement.reverse && asks_both_directions(test); }
};

// It changes, or is stuck as it is.
void add_stuck(const Seen_reading& seen, std::vector<Showing>& shown) {
  if (seen.answers) return;
  for (const Showing stuck : shown_where_stuck(seen.test, seen.component, seen.judgement))
    shown.push_back(stuck);
}

// What a reading at the plug that is healthy by itself shows, with its other direction and its answer.
void look_further(const Seen_reading& seen, std::vector<Showing>& at_plug) {
  const auto& reverse = seen.judgement.reverse;
  if (reverse && reverse->result == Conformity::outside)
    at_plug = seen.reading.reverse && seen.reading.reverse->over_range
                  ? std::vector{Showing::over_range, Showing::higher}
              : reverse->least.above > reverse->least.below ? std::vector{Showing::higher}
                                                            : std::vector{Showing::lower};
  else if (seen.does_not_answer)
    at_plug = {Showing::unsteady};
  else if (seen.needs_answer())
    at_plug.push_back(Showing::unsteady);
  // At another position the track may be broken or burnt; and what reads nothing may do so all along.
  if (seen.needs_answer() && is_swept(seen.test)) {
    at_plug.insert(at_plug.end(), {Showing::higher, Showing::over_range});
    const Judgement& now = seen.judgement;
    if (!now.reading.over_range && now.ohm <= rules::near_zero_at_most(now.service.ohm))
      at_plug.push_back(Showing::near_zero);
  }
  add_stuck(seen, at_plug);
  // The other direction may be the one that is wrong.
  if (seen.lacks_direction() && is_healthy(at_plug)) {
    at_plug.push_back(Showing::lower);
    if (seen.test.expect.reverse_max) at_plug.insert(at_plug.end(), {Showing::higher, Showing::over_range});
  }
  // That it is open now is healthy, if it rose before.
  if (watches_it_rise(seen.test) && !seen.answers) at_plug.push_back(Showing::over_range);
}

// Its answer and its other direction were looked at from the plug: where only they are wrong, a part that
// reads healthy by itself may be what is wrong.
void look_further_on_part(const Seen_reading& plug, const Judgement& on_part, Evidence& evidence) {
  const Seen_reading part{plug.test, plug.component, plug.reading, on_part, plug.answers, false};
  if (is_healthy(evidence.at_plug))
    look_further(part, evidence.at_part);
  else
    add_stuck(part, evidence.at_part);
  if (!plug.does_not_answer && !plug.needs_answer()) return;
  add({Showing::unsteady}, evidence.at_part);
  if (plug.does_not_answer || !is_healthy(evidence.at_plug))
    evidence.settle.push_back(
        "whether it answers on the part itself is not known: do there too what the test asks for. Where it "
        "does not answer there either, it is the part, and else the harness");
}

// Outside, and perhaps what is healthy with the leads exchanged: by both readings, or as the other is not
// known.
bool are_exchanged(const Seen_reading& seen) {
  const Judgement& judgement = seen.judgement;
  return judgement.result == Conformity::too_close && judgement.service.result == Conformity::outside &&
         (judgement.reverse ? judgement.reverse->result == Conformity::outside : seen.lacks_direction());
}

std::string what_decides(const Seen_reading& seen) {
  std::vector<std::string> by;
  if (seen.judgement.service.result == Conformity::too_close ||
      (seen.judgement.reverse && are_exchanged(seen)))
    by = seen.judgement.settle;
  if (seen.needs_answer() && !seen.reading.answered)
    by.push_back("say whether it answers as the test asks: \", answers\" or \", does not answer\"");
  if (seen.lacks_direction())
    by.push_back("exchange the leads, and write that reading behind the first: \", reversed READING\"");
  return fmt::format("undecided, so it rules out only what none of these would be{}{}",
                     by.empty() ? ": measure again" : ". Settle it: ", fmt::join(by, "; or "));
}

}

Evidence evidence_of(const Resolved& resolved, const Situation& situation, std::size_t number,
                     const Judge_request& reading, const Judgement& judgement, const Judgement* on_part,
                     const Verdict& verdict) {
  const double range_end = highest_range(verdict.meter);
  const Test& test = *situation.tests[number].test;
  const Resolved_component* component = resolved.component_of(test);
  const bool either = component != nullptr && rests_in_either(*component, test);
  const auto shown = [&](const Judgement& one) {
    // Where the magnet rests, a healthy one is open or closed.
    if (either && !shown_where_stuck(test, component, one).empty()) return std::vector{Showing::healthy};
    return shown_by(one, component, situation.tests[number].healthy, range_end);
  };
  Evidence evidence{number, shown(judgement), {}, {}};
  if (judgement.service.result != Conformity::within && !judgement.reading.over_range) {
    // Twice what it may be off: where the others read on, as much of the temperature counts for more ohms.
    const double off = 4 * judgement.uncertainty;
    evidence.read = {judgement.ohm - off, judgement.ohm + off};
    evidence.healthy = judgement.service.ohm;
    evidence.changes = changes_in_circuit(resolved, test, kelvin_of_part(reading, *component, verdict.room));
    evidence.damp_from = rules::perhaps_broken_from(component, judgement.service.ohm);
  }
  if (on_part != nullptr) {
    if (several_parts(resolved, situation, number))
      evidence.settle.emplace_back(of_which_of_several);
    else
      evidence.at_part = shown(*on_part);
  }
  evidence.hidden = is_hidden(evidence); // as read: what does not answer is said of both readings below
  if (evidence.hidden)
    evidence.settle.push_back(
        "healthy here and not on the part itself: the part is wrong and a path beside it in the harness, "
        "damp or chafed, hides that; or the two readings were exchanged. Read both again");
  const auto answer = answer_of(test, reading, judgement.response);
  const Seen_reading seen{
      test, component, reading, judgement, answer == Conformity::within, answer == Conformity::outside};
  if (is_healthy(evidence.at_part)) look_further_on_part(seen, *on_part, evidence);
  if (judgement.reading.over_range && !is_healthy(evidence.at_plug) && evidence.at_plug.size() > 1)
    evidence.settle.push_back(fmt::format(
        "OL on a range that ends at {} may be an open path or a reading that is too high: read it again on a "
        "range that ends at {} or above",
        shown_ohm(judgement.ohm), shown_ohm(open_from(judgement.service.ohm, range_end))));
  if (auto prefix = mind_the_prefix(judgement.reading, judgement.service); !prefix.empty())
    evidence.settle.push_back(std::move(prefix));
  if (on_part != nullptr)
    if (const auto prefix = mind_the_prefix(on_part->reading, on_part->service); !prefix.empty())
      evidence.settle.push_back("on the part " + prefix);
  if (is_healthy(evidence.at_plug))
    look_further(seen, evidence.at_plug);
  else if (are_exchanged(seen))
    evidence.at_plug.push_back(Showing::healthy);
  else if (seen.closes_when_moved()) {
    evidence.at_plug.push_back(Showing::unsteady);
    evidence.settle.push_back(
        "it closed while it was moved: what is wrong comes and goes, and lies where it was "
        "moved, or near it");
  }
  if (evidence.undecided()) evidence.settle.push_back(what_decides(seen));
  return evidence;
}

namespace {

// On the part itself its harness is left out, and all else that is not the part.
bool is_of_part(const Situation& situation, std::size_t hypothesis, std::size_t test) {
  const Culprit& culprit = situation.culprits[situation.order.hypotheses[hypothesis].culprit];
  const Value<Text>& component = situation.tests[test].test->component;
  return culprit.kind == Suspect_kind::component && component && *component == culprit.id;
}

// One of the two that hide each other: its healthy reading at the plug does not speak for it.
bool is_one_that_hides(const Situation& situation, const Evidence& evidence, std::size_t hypothesis) {
  if (!evidence.hidden) return false;
  if (is_of_part(situation, hypothesis, evidence.test)) return true;
  const std::optional<Mode>& mode = situation.failures[hypothesis].mode;
  return situation.culprits[situation.order.hypotheses[hypothesis].culprit].kind == Suspect_kind::harness &&
         situation.order.hypotheses[hypothesis].shows[evidence.test][0] < 1 &&
         (mode == Mode::short_ || mode == Mode::wet_or_corroded);
}

// What is read where one of several is open or shorted is known of the others in its path. Of one of several
// paths that is shorted they leave any less, unless it is too close to call.
Interval what_others_leave(const Situation& situation, const Evidence& evidence, std::size_t hypothesis,
                           bool too_close) {
  const Failure& failure = situation.failures[hypothesis];
  if (!failure.mode || (failure.cells[evidence.test].shows == Shows::near_zero && !too_close))
    return {0, INFINITY};
  return through_others(*failure.mode, failure.cells[evidence.test], situation.tests[evidence.test].healthy,
                        evidence.healthy, evidence.changes, evidence.damp_from);
}

// How probable the reading at the plug is with the failure.
double fit_at_plug(const Situation& situation, const Evidence& evidence, std::size_t hypothesis) {
  const bool too_close = evidence.is_read() && is_healthy(evidence.at_plug);
  const Interval left = what_others_leave(situation, evidence, hypothesis, too_close);
  std::vector<Showing> shown = evidence.at_plug;
  if (too_close && !left.overlaps(evidence.read))
    std::erase_if(shown, [](Showing one) { return one == Showing::higher || one == Showing::lower; });
  else if (evidence.read.low > left.high)
    std::erase_if(shown, [](Showing one) { return one != Showing::over_range; }); // those are open too
  else if (!left.overlaps(evidence.read))
    return 0;
  return share(situation.order.hypotheses[hypothesis].shows[evidence.test], shown);
}

// How probable all that was read in this test is with the failure.
double fit(const Situation& situation, const Evidence& evidence, std::size_t hypothesis) {
  const Showing_shares& shares = situation.order.hypotheses[hypothesis].shows[evidence.test];
  const bool of_part = is_of_part(situation, hypothesis, evidence.test);
  const double on_part = evidence.at_part.empty()       ? 1
                         : of_part                      ? share(shares, evidence.at_part)
                         : is_healthy(evidence.at_part) ? 1
                                                        : 0;
  // The path beside the part: one time in two it is such that it hides the fault (assumption).
  if (is_one_that_hides(situation, evidence, hypothesis)) return of_part ? on_part : 0.5;
  return fit_at_plug(situation, evidence, hypothesis) * on_part;
}

}

bool is_said_to_exclude(const Situation& situation, std::size_t test, std::size_t hypothesis) {
  const std::optional<Mode>& mode = situation.failures[hypothesis].mode;
  return mode && names(situation.tests[test].test->excludes, *mode);
}

// What is seen while it is watched alone, one abnormal reading does not exclude.
static bool may_exclude(const Situation& situation, const Evidence& evidence, std::size_t hypothesis) {
  return is_said_to_exclude(situation, evidence.test, hypothesis) &&
         !(evidence.abnormal() && shows_only_while_watched(*situation.tests[evidence.test].test,
                                                           *situation.failures[hypothesis].mode));
}

bool is_excluded(const Situation& situation, std::span<const Evidence> all, std::size_t hypothesis) {
  return std::any_of(all.begin(), all.end(), [&](const Evidence& evidence) {
    const Showing_shares& shares = situation.order.hypotheses[hypothesis].shows[evidence.test];
    if (shares[0] >= 1 || !may_exclude(situation, evidence, hypothesis)) return false;
    if (fit_at_plug(situation, evidence, hypothesis) <= 0 &&
        !is_one_that_hides(situation, evidence, hypothesis))
      return true;
    return !evidence.at_part.empty() && is_of_part(situation, hypothesis, evidence.test) &&
           share(shares, evidence.at_part) <= 0;
  });
}

bool explains(const Situation& situation, std::span<const Evidence> all, std::size_t hypothesis) {
  return std::any_of(all.begin(), all.end(), [&](const Evidence& evidence) {
    const Showing_shares& shares = situation.order.hypotheses[hypothesis].shows[evidence.test];
    if (!evidence.abnormal() || shares[0] >= 1) return false;
    return is_one_that_hides(situation, evidence, hypothesis)
               ? fit(situation, evidence, hypothesis) > 0
               : fit_at_plug(situation, evidence, hypothesis) > 0;
  });
}

// Its twin was read by itself, and is open or shorted: then there is nothing to compare with.
static bool lacks_its_twin(const Situation& situation, const Test& test, std::span<const Evidence> all) {
  if (!compares_twins(test) || !test.expect.with) return false;
  return std::any_of(all.begin(), all.end(), [&](const Evidence& evidence) {
    const Test& other = *situation.tests[evidence.test].test;
    const auto& shown = evidence.at_plug;
    return !compares_twins(other) && other.component && *other.component == *test.expect.with &&
           !is_healthy(shown) && std::any_of(shown.begin(), shown.end(), [](Showing one) {
             return one == Showing::over_range || one == Showing::near_zero;
           });
  });
}

Order_state state_after(const Situation& situation, std::span<const Evidence> all, bool& contradiction) {
  contradiction = false;
  const Order_problem& order = situation.order;
  Order_state state = beginning(order);
  const std::vector<double> prior = state.weights;
  const auto weigh = [&](double least) {
    double sum = 0;
    for (std::size_t i = 0; i < prior.size(); ++i) {
      state.weights[i] = prior[i];
      for (const Evidence& evidence : all) state.weights[i] *= std::max(fit(situation, evidence, i), least);
      sum += state.weights[i];
    }
    for (double& weight : state.weights) weight = sum > 1e-9 ? weight / sum : 0;
    return sum > 1e-9;
  };
  if (!weigh(0)) {
    contradiction = true;
    weigh(unexplained);
  }
  for (const Evidence& evidence : all) {
    const Order_state next = after(order, state, evidence.test, evidence.at_plug);
    state.taken = next.taken;
    if (evidence.undecided() && !evidence.no_nearer)
      state.taken[evidence.test] = false; // to be measured again
    state.done = next.done;
    state.abnormal = state.abnormal || evidence.abnormal();
  }
  for (std::size_t t = 0; t < situation.tests.size(); ++t)
    if (lacks_its_twin(situation, *situation.tests[t].test, all)) state.taken[t] = true;
  return state;
}

}
