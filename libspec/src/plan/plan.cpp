#include "ohmlore/plan.h"

#include <algorithm>

#include "lint/rule.h"
#include "ohmlore/cautions.h"
#include "plan/codes.h"
#include "plan/evidence.h"
#include "plan/instructions.h"
#include "plan/words.h"

namespace ohmlore {
namespace {

using namespace rules;

constexpr double gone = 1e-9;
// An outcome that is less probable than this is not spoken of, nor followed deeper.
constexpr double too_rare = 0.002;
constexpr std::size_t deepest = 3; // tests after an abnormal reading; then one plans again with the readings

struct Planner {
  const Resolved& resolved;
  const Situation& situation;
  const Plan_request& request;
  Plan plan = {};
  std::vector<std::size_t> asked = {};    ///< tests that an outcome asks for
  std::vector<Order_state> asked_in = {}; ///< and the state in which it does

  std::size_t hypotheses() const { return situation.failures.size(); }
  bool is_seen(std::size_t h) const {
    const auto& shows = situation.order.hypotheses[h].shows;
    return std::any_of(shows.begin(), shows.end(), [](const Showing_shares& s) { return s[0] < 1; });
  }
  /// An entry that no test sees, and that is not yet ruled out; a board or a supply is for the end.
  bool is_undecided(std::size_t entry, const Order_state& state) const {
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
  Plan_left left_of(std::size_t entry) const {
    const Suspect& suspect = situation.storage[entry];
    Plan_left left{situation.culprit_of[entry], {}, {}};
    for (const Value<Mode>& mode : suspect.modes)
      if (mode) left.modes.push_back(*mode);
    if (suspect.not_decidable) left.why = std::string(*suspect.not_decidable);
    return left;
  }
  double weight_of(const Order_state& state, std::size_t culprit) const {
    double sum = 0;
    for (std::size_t h = 0; h < hypotheses(); ++h)
      if (situation.order.hypotheses[h].culprit == culprit) sum += state.weights[h];
    return sum;
  }
  std::vector<std::string> listed(const std::vector<bool>& is, const Order_state& by) const {
    return listed_failures(resolved, situation, is, by.weights);
  }

  /// A failure is gone where every path in which it may lie is.
  std::vector<bool> gone_between(const Order_state& before, const Order_state& after) const {
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

  /// ": flow_sensor_resistance"; empty where no test of the codes is of that part.
  std::string own_tests(std::size_t culprit) const {
    std::string out;
    for (const Named_test& named : situation.tests)
      if (named.test->component && *named.test->component == situation.culprits[culprit].id)
        out += fmt::format("{}{}", out.empty() ? ": " : ", ", named.id);
    return out;
  }
  std::vector<std::string> advice(const Order_state& state, std::size_t test) const;
  Plan_outcome outcome(const Order_state& state, std::size_t test, std::vector<Showing> shown,
                       std::size_t depth);
  std::vector<Plan_outcome> outcomes(const Order_state& state, std::size_t test, std::size_t depth);
  void lay_out(Order_state state);
  void list_suspects(const Order_state& now);
};

// What to do where an abnormal reading leaves these, and no test of the codes helps further.
std::vector<std::string> Planner::advice(const Order_state& state, std::size_t test) const {
  std::vector<std::size_t> left;
  for (std::size_t c = 0; c < situation.culprits.size(); ++c)
    if (weight_of(state, c) > 0.02) left.push_back(c);
  std::stable_sort(left.begin(), left.end(), [&](std::size_t a, std::size_t b) {
    return weight_of(state, a) > weight_of(state, b) + gone;
  });
  const Test& last = *situation.tests[test].test;
  const bool at_plug =
      last.side && (*last.side == Side::at_board_plug || *last.side == Side::at_inline_connector);
  const bool harness = std::any_of(left.begin(), left.end(), [&](std::size_t c) {
    return situation.culprits[c].kind == Suspect_kind::harness;
  });
  std::size_t parts = 0;
  for (const std::size_t c : left) parts += situation.culprits[c].kind == Suspect_kind::component;
  std::vector<std::string> out;
  if (left.empty())
    out.push_back(
        "nothing that is listed reads so: check the leads, the contacts and the meter, and read once "
        "more; then think of two faults at once, and of exchanged plugs");
  else if (harness && parts > 0)
    out.push_back(
        "read the same two ends on the part itself: healthy there, it is the harness; the same as here, "
        "it is the part");
  else if (parts == 1 && left.size() == 1 &&
           !(last.component && *last.component == situation.culprits[left[0]].id))
    out.push_back(fmt::format("before it is replaced, read that part by itself{}", own_tests(left[0])));
  else if (at_plug && parts == 1)
    out.push_back(
        "before it is replaced, read the same two ends on the part itself: healthy there, it is the "
        "harness between after all");
  if (parts > 1)
    out.push_back(
        "several parts lie in this path: open the joint between them and read each by itself; never "
        "bridge one");
  if (left.size() == 1 && harness && parts == 0)
    out.push_back(
        "look along the harness for chafing, crushed pins and damp, and mend it as the maker allows");
  return out;
}

Plan_outcome Planner::outcome(const Order_state& state, std::size_t test, std::vector<Showing> shown,
                              std::size_t depth) {
  Plan_outcome out;
  const bool healthy = shown == std::vector<Showing>{Showing::healthy};
  for (const Showing one : shown) out.probability += probability_of(situation.order, state, test, one);
  const Order_state next = after(situation.order, state, test, shown);
  out.rules_out = listed(gone_between(state, next), state);
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
    out.then = advice(next, test);
  }
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
    for (std::size_t h = 0; h < hypotheses(); ++h) {
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

void Planner::list_suspects(const Order_state& now) {
  const Order_state before = beginning(situation.order);
  for (std::size_t c = 0; c < situation.nobody(); ++c) {
    const Culprit& culprit = situation.culprits[c];
    Plan_suspect out;
    out.kind = culprit.kind;
    if (culprit.kind == Suspect_kind::component || culprit.kind == Suspect_kind::harness)
      out.id = std::string(culprit.id);
    out.name = name_of(resolved, culprit);
    if (culprit.kind == Suspect_kind::component) {
      if (const Resolved_component* component = resolved.component(culprit.id)) {
        if (component->placed != nullptr && component->placed->where)
          out.where = std::string(*component->placed->where);
        if (const auto number = component->get(&Component_type::orderable))
          out.orderable = std::string(**number);
      }
    } else if (culprit.kind == Suspect_kind::harness) {
      if (const Connector* connector = resolved.connector(culprit.id))
        if (connector->where) out.where = std::string(*connector->where);
    }
    for (const Text code : culprit.codes) out.codes.emplace_back(code);
    out.before = weight_of(before, c);
    out.now = weight_of(now, c);
    for (std::size_t h = 0; h < hypotheses(); ++h) {
      if (situation.order.hypotheses[h].culprit != c) continue;
      const Standing standing = now.weights[h] <= gone ? Standing::ruled_out
                                : now.abnormal         ? Standing::found
                                : is_seen(h)           ? Standing::suspected
                                                       : Standing::not_decidable;
      const auto same = std::find_if(out.modes.begin(), out.modes.end(), [&](const Plan_mode& one) {
        return one.mode == situation.failures[h].mode;
      });
      if (same == out.modes.end())
        out.modes.push_back({situation.failures[h].mode, standing});
      else if (same->standing == Standing::ruled_out)
        same->standing = standing;
    }
    out.standing = Standing::ruled_out;
    for (const Standing standing : {Standing::not_decidable, Standing::suspected, Standing::found})
      for (const Plan_mode& one : out.modes)
        if (one.standing == standing) out.standing = standing;
    for (const Suspect* entry : culprit.entries) {
      if (entry->not_decidable) {
        std::string modes;
        for (const Value<Mode>& mode : entry->modes)
          if (mode) modes += fmt::format("{}{}", modes.empty() ? "" : ", ", spoken(*mode));
        out.not_decidable.push_back(modes.empty() ? std::string(*entry->not_decidable)
                                                  : fmt::format("{}: {}", modes, *entry->not_decidable));
      }
      if (entry->note) out.notes.emplace_back(*entry->note);
    }
    plan.suspects.push_back(std::move(out));
  }
}

std::string raised_words(const Raised& raised) {
  std::string out;
  const auto side = [&](const Value<Quantity>& limit, const char* word) {
    if (limit)
      out += fmt::format("{}{} {}", out.empty() ? "" : " or ", word, describe(limit->si, limit->dimension));
  };
  side(raised.below, "below");
  side(raised.above, "above");
  if (!out.empty() && raised.component) out += fmt::format(" at {}", *raised.component);
  if (raised.after)
    out += fmt::format("{}for {}", out.empty() ? "" : ", ", describe(raised.after->si, Dimension::time));
  return out;
}

// Readings judged; those that the codes' tests hold are evidence.
std::vector<Evidence> judged_readings(const Resolved& resolved, const Situation& situation,
                                      const Plan_request& request, const Judge_means& means, Plan& plan) {
  std::vector<Judge_request> requests;
  for (const Plan_reading& one : request.readings) requests.push_back(one.request);
  plan.readings = judge(resolved, requests, means);
  for (const std::string& problem : plan.readings->problems) plan.problems.push_back(problem);
  std::vector<Evidence> all;
  std::size_t at = 0; // judgements come in the order of the requests; those with a problem are missing
  for (const Plan_reading& reading : request.readings) {
    if (at == plan.readings->judgements.size() || plan.readings->judgements[at].test != reading.request.test)
      continue;
    const Judgement& judgement = plan.readings->judgements[at++];
    const auto named = std::find_if(situation.tests.begin(), situation.tests.end(),
                                    [&](const Named_test& one) { return one.id == reading.request.test; });
    if (named == situation.tests.end()) {
      plan.remarks.push_back(fmt::format(
          "{} is judged, and says nothing of these codes: none of them names it", reading.request.test));
      continue;
    }
    std::optional<Verdict> part;
    if (reading.request.at_part) {
      Judge_request on_part = reading.request;
      on_part.reading = *on_part.at_part;
      on_part.at_part.reset();
      on_part.after.reset();
      on_part.reverse.reset();
      part = judge(resolved, {&on_part, 1}, means);
    }
    const Judgement* on_part = part && !part->judgements.empty() ? &part->judgements[0] : nullptr;
    Evidence evidence =
        evidence_of(resolved, situation, static_cast<std::size_t>(named - situation.tests.begin()), reading,
                    judgement, on_part);
    // Of a test that was repeated, the last reading counts.
    std::erase_if(all, [&](const Evidence& before) { return before.test == evidence.test; });
    all.push_back(std::move(evidence));
  }
  return all;
}

void conclude(Plan& plan, const Planner& planner, std::span<const Evidence> all, const Order_state& state,
              bool contradiction) {
  const Situation& situation = planner.situation;
  for (const Evidence& evidence : all)
    plan.conclusion.push_back(fmt::format(
        "{} reads {}{}", situation.tests[evidence.test].id, shown_words(evidence.at_plug),
        evidence.at_part.empty() ? std::string()
                                 : fmt::format(", on the part {}", shown_words(evidence.at_part))));
  if (contradiction)
    plan.conclusion.push_back(
        "no single failure that these codes name explains all of that: look for a reading that "
        "was taken wrongly, for exchanged plugs, and then for two faults at once; what follows "
        "goes by what explains most of it");
  std::vector<bool> alive(planner.hypotheses());
  bool explained = false;
  for (std::size_t h = 0; h < planner.hypotheses(); ++h) {
    alive[h] = state.weights[h] > 0.02 && situation.order.hypotheses[h].culprit != situation.nobody();
    explained = explained || alive[h];
  }
  if (state.abnormal && explained) {
    const std::vector<std::string> found = planner.listed(alive, state);
    plan.conclusion.push_back(fmt::format("that points to {}", fmt::join(found, "; or ")));
    if (!next_test(situation.order, state))
      for (const Evidence& evidence : all)
        if (evidence.abnormal() && evidence.at_part.empty())
          for (const std::string& one : planner.advice(state, evidence.test)) plan.conclusion.push_back(one);
    std::vector<std::string> unexplained;
    for (const Plan_code& code : plan.codes) {
      bool can = false;
      for (std::size_t h = 0; h < planner.hypotheses(); ++h) {
        const auto& codes = situation.culprits[situation.order.hypotheses[h].culprit].codes;
        can = can || (alive[h] && std::find(codes.begin(), codes.end(), code.id) != codes.end());
      }
      if (!can) unexplained.push_back(code.id);
    }
    if (!unexplained.empty())
      plan.conclusion.push_back(
          fmt::format("that does not explain {}: plan for it alone, with the same readings",
                      fmt::join(unexplained, " or ")));
  } else if (!all.empty() && !contradiction) {
    plan.conclusion.push_back("nothing abnormal has been read so far");
  }
}

void say_what_remains(Plan& plan, const Situation& situation) {
  const auto remains = [&](Suspect_kind kind) {
    return std::any_of(plan.left.begin(), plan.left.end(),
                       [&](const Plan_left& left) { return situation.culprits[left.suspect].kind == kind; });
  };
  auto& out = plan.all_healthy;
  out.push_back(
      "healthy readings exclude what each step says that they rule out, and no more: what comes and goes "
      "was perhaps not there while it was measured");
  out.push_back(
      "look at every plug that was withdrawn: pins that are pushed back, spread, burnt or green; push it "
      "home until it latches; look along the harness for chafing and damp");
  if (remains(Suspect_kind::cause))
    out.push_back("look at the causes that are not electrical, as they are listed here");
  out.push_back(
      "the control board and what supplies it are left for the end, whether they are listed or not: no "
      "dead test shows either to be good or bad. To look at them live leaves dead testing, and so this "
      "plan: only by those competent for live work, by the maker's procedure; no board is replaced merely "
      "because nothing else was found");
}

}

Plan plan(const Resolved& resolved, const Plan_request& request, const Judge_means& means) {
  const Profile& profile = *resolved.document->profile();
  Plan empty;
  empty.profile = std::string(*profile.id);
  empty.revision = *profile.revision;
  empty.cautions = cautions_for(profile);
  Found_codes found = find_codes(profile, request.codes, request.model, request.software);
  empty.remarks = std::move(found.remarks);
  empty.problems = std::move(found.problems);
  if (!empty.problems.empty() || found.faults.empty()) return empty;
  for (const Planned_fault& one : found.faults)
    empty.codes.push_back({std::string(one.id), displayed(one.fault->display),
                           one.fault->meaning ? std::string(*one.fault->meaning) : "",
                           raised_words(one.fault->raised),
                           one.fault->note ? std::string(*one.fault->note) : ""});

  const Situation situation = situation_of(resolved, found.faults, request.model);
  Planner planner{resolved, situation, request, std::move(empty)};
  Order_state state = beginning(situation.order);
  std::vector<Evidence> all;
  bool contradiction = false;
  if (!request.readings.empty()) {
    all = judged_readings(resolved, situation, request, means, planner.plan);
    state = state_after(situation, all, contradiction);
    conclude(planner.plan, planner, all, state, contradiction);
  }
  planner.list_suspects(state);
  planner.lay_out(state);
  say_what_remains(planner.plan, situation);
  if (profile.appliance.models.size() > 1 && !request.model) {
    const bool differs =
        std::any_of(profile.components.begin(), profile.components.end(),
                    [&](const auto& entry) {
                      return std::any_of(situation.culprits.begin(), situation.culprits.end(),
                                         [&](const Culprit& c) {
                                           return c.id == entry.id && !entry.value.when.models.empty();
                                         });
                    }) ||
        std::any_of(found.faults.begin(), found.faults.end(),
                    [](const Planned_fault& one) { return !one.fault->when.models.empty(); });
    if (differs) {
      std::vector<std::string> models;
      for (const Value<Text>& model : profile.appliance.models)
        if (model) models.emplace_back(*model);
      planner.plan.remarks.push_back(
          fmt::format("this differs between models: say which with --model: {}", fmt::join(models, ", ")));
    }
  }
  return std::move(planner.plan);
}

Plan_problem plan_problem(const Resolved& resolved, std::span<const std::string> faults) {
  std::vector<Planned_fault> planned;
  for (const std::string& id : faults)
    if (const Fault* fault = resolved.fault(id)) planned.push_back({id, fault});
  Situation situation = situation_of(resolved, planned, {});
  Plan_problem problem;
  for (const Named_test& test : situation.tests) problem.tests.emplace_back(test.id);
  for (const Culprit& culprit : situation.culprits) problem.culprits.push_back(name_of(resolved, culprit));
  problem.order = std::move(situation.order);
  return problem;
}

}
