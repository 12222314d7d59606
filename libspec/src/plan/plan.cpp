#include "ohmlore/plan.h"

#include <algorithm>
#include <set>

#include "judge/asked.h"
#include "judge/modes.h"
#include "judge/typed.h"
#include "lint/rule.h"
#include "model/spoken.h"
#include "ohmlore/cautions.h"
#include "plan/advice.h"
#include "plan/codes.h"
#include "plan/evidence.h"
#include "plan/instructions.h"
#include "plan/planner.h"
#include "plan/words.h"

namespace ohmlore {

static void add_once(std::vector<std::string>& list, std::string text) {
  if (std::find(list.begin(), list.end(), text) == list.end()) list.push_back(std::move(text));
}

// What is said of two together: what leads to either is not lost, and only both are ruled out.
static Standing together(Standing a, Standing b) {
  using enum Standing;
  for (const Standing one : {found, suspected, not_decidable, no_sign})
    if (a == one || b == one) return one;
  return ruled_out;
}

void Planner::list_suspects(const Order_state& now, std::span<const Evidence> all) {
  const std::vector<double> weights_before = weights_by_culprit(beginning(situation.order));
  const std::vector<double> weights_now = weights_by_culprit(now);
  const auto hypotheses_of = hypotheses_by_culprit(now);
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
    out.before = weights_before[c];
    out.now = weights_now[c];
    for (const std::size_t h : hypotheses_of[c]) {
      const bool left = now.weights[h] > gone;
      const Standing standing = !left && is_excluded(situation, all, h)       ? Standing::ruled_out
                                : !left                                       ? Standing::no_sign
                                : now.abnormal && explains(situation, all, h) ? Standing::found
                                : is_seen(h)                                  ? Standing::suspected
                                                                              : Standing::not_decidable;
      const auto same = std::find_if(out.modes.begin(), out.modes.end(), [&](const Plan_mode& one) {
        return one.mode == situation.failures[h].mode;
      });
      if (same == out.modes.end())
        out.modes.push_back({situation.failures[h].mode, standing});
      else
        same->standing = together(same->standing, standing);
    }
    out.standing = Standing::ruled_out;
    for (const Plan_mode& one : out.modes) out.standing = together(out.standing, one.standing);
    for (const Suspect* entry : culprit.entries) {
      if (entry->not_decidable) add_once(out.not_decidable, why_of_modes(*entry));
      if (entry->note) add_once(out.notes, std::string(*entry->note));
    }
    plan.suspects.push_back(std::move(out));
  }
}

namespace {

using namespace rules;

// Failures times tests; a code with 64 suspects of 3 modes each and 100 tests is less.
constexpr std::size_t largest_planned = 20'000;
// The same before what several codes suspect is made one, which takes a hundred bytes for each.
constexpr std::size_t largest_looked_at = 50 * largest_planned;

// Where the faults are too many to be planned for at once: why.
std::string too_many(std::size_t failures, std::size_t tests) {
  return fmt::format("{} failures and {} tests are too many to put in order at once: plan for fewer codes",
                     failures, tests);
}

std::string too_many(const std::vector<Planned_fault>& faults) {
  std::size_t failures = 0;
  std::set<Text> tests;
  for (const Planned_fault& one : faults)
    for (const Suspect& suspect : one.fault->suspects) {
      failures += std::max<std::size_t>(suspect.modes.size(), 1);
      for (const Value<Text>& id : suspect.decided_by)
        if (id) tests.insert(*id);
    }
  return failures * tests.size() > largest_looked_at ? too_many(failures, tests.size()) : std::string();
}

std::string raised_words(const Raised& raised) {
  std::string out;
  const auto side = [&](const Value<Quantity>& limit, const char* word) {
    if (limit)
      out += fmt::format("{}{} {}", out.empty() ? "" : " or ", word, describe(limit->si, limit->dimension));
  };
  side(raised.below, "below");
  side(raised.above, "above");
  if (raised.component) out += fmt::format("{} {}", out.empty() ? "by" : " at", *raised.component);
  if (raised.after)
    out += fmt::format("{}for {}", out.empty() ? "" : ", ", describe(raised.after->si, Dimension::time));
  return out;
}

// Readings judged; those that the codes' tests hold are evidence.
std::vector<Evidence> judged_readings(const Resolved& resolved, const Situation& situation,
                                      const Plan_request& request, const Judge_means& means, Plan& plan) {
  plan.readings = judge(resolved, request.readings, means);
  for (const std::string& problem : plan.readings->problems) plan.problems.push_back(problem);
  std::vector<Evidence> all;
  std::size_t at = 0; // judgements come in the order of the requests; those with a problem are missing
  for (const Judge_request& reading : request.readings) {
    if (at == plan.readings->judgements.size() || plan.readings->judgements[at].test != reading.test)
      continue;
    const Judgement& judgement = plan.readings->judgements[at++];
    const auto named = std::find_if(situation.tests.begin(), situation.tests.end(),
                                    [&](const Named_test& one) { return one.id == reading.test; });
    if (named == situation.tests.end()) {
      plan.remarks.push_back(
          fmt::format("{} is judged, and says nothing of these codes: none of them names it", reading.test));
      continue;
    }
    if (reading.answered && !asks_for_response(*named->test))
      plan.remarks.push_back(fmt::format("{}: {}", reading.test, no_answer_asked));
    std::optional<Verdict> part;
    if (reading.at_part) {
      Judge_request on_part = reading;
      on_part.reading = *on_part.at_part;
      on_part.at_part.reset();
      on_part.after.reset();
      on_part.answered.reset();
      on_part.reverse.reset();
      part = judge(resolved, {&on_part, 1}, means);
    }
    const Judgement* on_part = part && !part->judgements.empty() ? &part->judgements[0] : nullptr;
    Evidence evidence =
        evidence_of(resolved, situation, static_cast<std::size_t>(named - situation.tests.begin()), reading,
                    judgement, on_part, *plan.readings);
    const auto before =
        std::find_if(all.begin(), all.end(), [&](const Evidence& one) { return one.test == evidence.test; });
    if (before != all.end()) {
      evidence = repeated(*before, std::move(evidence));
      all.erase(before);
    }
    all.push_back(std::move(evidence));
  }
  return all;
}

// A pair that was read and could not be compared, as the twin was open: nothing else can be read there, and
// why stands among the problems.
void leave_out_incomparable(const Situation& situation, const Plan_request& request,
                            std::span<const Evidence> all, Order_state& state) {
  for (std::size_t t = 0; t < situation.tests.size(); ++t) {
    if (!compares_twins(*situation.tests[t].test)) continue;
    const bool read =
        std::any_of(request.readings.begin(), request.readings.end(),
                    [&](const Judge_request& one) { return one.test == situation.tests[t].id && one.twin; });
    if (read && std::none_of(all.begin(), all.end(), [&](const Evidence& one) { return one.test == t; }))
      state.taken[t] = true;
  }
}

// What explains one abnormal reading by itself, and no healthy reading excludes: with two faults at once no
// other abnormal reading excludes anything either.
std::vector<std::string> explanations_of(const Planner& planner, std::span<const Evidence> all,
                                         const Evidence& evidence) {
  std::vector<Evidence> kept = {evidence};
  for (const Evidence& one : all)
    if (!one.abnormal()) kept.push_back(one);
  std::vector<bool> explain(planner.hypotheses());
  for (std::size_t h = 0; h < planner.hypotheses(); ++h)
    explain[h] = explains(planner.situation, {&evidence, 1}, h) && !is_excluded(planner.situation, kept, h);
  bool contradiction = false;
  return planner.listed(explain, state_after(planner.situation, kept, contradiction));
}

// Several abnormal readings, each by itself; and what finds out whether there are several faults.
void conclude_one_by_one(Plan& plan, const Planner& planner, std::span<const Evidence> all,
                         bool contradiction) {
  const Situation& situation = planner.situation;
  std::vector<std::string> each;
  std::vector<std::vector<std::string>> explanations;
  for (const Evidence& evidence : all) {
    if (!evidence.abnormal()) continue;
    const std::vector<std::string>& by = explanations.emplace_back(explanations_of(planner, all, evidence));
    each.push_back(
        fmt::format("{} by itself points to {}", situation.tests[evidence.test].id,
                    by.empty() ? "nothing that is listed" : fmt::format("{}", fmt::join(by, "; or "))));
  }
  // The same one each time is one fault.
  const bool one_alone = std::all_of(explanations.begin(), explanations.end(),
                                     [&](const auto& by) { return by.size() == 1 && by == explanations[0]; });
  if (!contradiction && one_alone) return;
  plan.conclusion.push_back(
      contradiction
          ? "there may be more than one fault: read again what was not healthy, on the contacts that "
            "the test names, and then take one reading after the other"
          : "one failure explains all of these readings; there may be several faults at once all the "
            "same");
  for (std::string& one : each) plan.conclusion.push_back(std::move(one));
  plan.conclusion.push_back(
      "read each of these parts by itself before anything is replaced; what is found is put right, and all "
      "the others are read again");
}

// What the readings of a test look like to judge. Of what in its path, they do not say.
std::vector<std::string> likenesses_of(const Plan& plan, Text test) {
  std::vector<std::string> modes;
  for (const Judgement& one : plan.readings->judgements) {
    if (one.test != test) continue;
    for (const Mode_answer& answer : one.modes)
      if (answer.verdict == Mode_verdict::fits &&
          std::find(modes.begin(), modes.end(), spoken(answer.mode)) == modes.end())
        modes.push_back(spoken(answer.mode));
  }
  return modes;
}

// Why nothing that is listed explains all readings.
void say_what_contradicts(Plan& plan, const Planner& planner, std::span<const Evidence> all) {
  std::vector<Text> unexplained;
  for (const Evidence& evidence : all) {
    bool explained = !evidence.abnormal();
    for (std::size_t h = 0; h < planner.hypotheses() && !explained; ++h)
      explained = explains(planner.situation, {&evidence, 1}, h);
    if (!explained) unexplained.push_back(planner.situation.tests[evidence.test].id);
  }
  plan.conclusion.push_back(fmt::format(
      "no single failure that these codes name explains all of that: a reading was taken "
      "wrongly, plugs are exchanged, or {}; the shares below go by what explains most of it",
      unexplained.empty() ? "there are two faults at once" : "it is a failure that they do not name"));
  for (const Text test : unexplained)
    if (const auto modes = likenesses_of(plan, test); !modes.empty())
      plan.conclusion.push_back(fmt::format("{} by itself looks like {}", test, fmt::join(modes, "; or ")));
}

void conclude(Plan& plan, const Planner& planner, std::span<const Evidence> all, const Order_state& state,
              bool contradiction) {
  const Situation& situation = planner.situation;
  for (const Evidence& evidence : all)
    plan.conclusion.push_back(
        fmt::format("{} reads {}{}", situation.tests[evidence.test].id,
                    shown_words(evidence.at_plug, *situation.tests[evidence.test].test),
                    evidence.at_part.empty()
                        ? std::string()
                        : fmt::format(", on the part {}",
                                      shown_words(evidence.at_part, *situation.tests[evidence.test].test))));
  for (const Evidence& evidence : all)
    for (const std::string& one : evidence.settle)
      plan.conclusion.push_back(fmt::format("{}: {}", situation.tests[evidence.test].id, one));
  bool apart = false; // readings that are no healthy ones together
  for (const Set_check& check : plan.readings->sets)
    if (check.result == Conformity::outside) {
      plan.conclusion.push_back(check.words);
      apart = true;
    }
  // A chain is closed, and one part in it is not.
  for (const Judgement& one : plan.readings->judgements) {
    const Test* test = planner.resolved.test(one.test);
    if (!one.harness || one.harness->result != Conformity::outside || test == nullptr ||
        circuits_read(planner.resolved, *test).empty())
      continue;
    plan.conclusion.push_back(fmt::format("{}: {}", one.test, one.harness->words));
    apart = true;
  }
  if (contradiction) say_what_contradicts(plan, planner, all);
  std::vector<bool> alive(planner.hypotheses());
  bool explained = false;
  for (std::size_t h = 0; h < planner.hypotheses(); ++h) {
    alive[h] = state.weights[h] > 0.02 && situation.order.hypotheses[h].culprit != situation.nobody() &&
               (!contradiction || explains(situation, all, h));
    explained = explained || alive[h];
  }
  if (state.abnormal && explained) {
    const std::vector<std::string> found = planner.listed(alive, state);
    const bool several =
        std::count_if(all.begin(), all.end(), [](const Evidence& one) { return one.abnormal(); }) > 1;
    if (!contradiction || !several)
      plan.conclusion.push_back(fmt::format("that points to {}", fmt::join(found, "; or ")));
    if (several) conclude_one_by_one(plan, planner, all, contradiction);
    const bool at_the_end = !(contradiction && several) && !next_test(situation.order, state);
    for (const Evidence& evidence : all)
      if (evidence.abnormal())
        for (const std::string& one : (at_the_end ? advice : what_may_deceive)(
                 planner, state, evidence.test, evidence.at_plug, evidence.read.high))
          if ((evidence.at_part.empty() && !several) || one.find("on the part itself") == std::string::npos)
            add_once(plan.conclusion, one);
    if (std::any_of(all.begin(), all.end(), [](const Evidence& one) { return one.in_the_harness(); }))
      add_once(plan.conclusion, std::string(look_along_the_harness));
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
  } else if (contradiction) {
    plan.conclusion.push_back(
        "nothing that is listed reads so; none of it is accused, and none of it cleared");
  } else if (!all.empty() && !state.abnormal) {
    const auto any = [&](auto is) { return std::any_of(all.begin(), all.end(), is); };
    if (any([](const Evidence& one) { return one.undecided() && !one.no_nearer; }))
      plan.conclusion.push_back(
          "nothing has been read that is abnormal for certain; what is undecided is to be "
          "measured again");
    else if (any([](const Evidence& one) { return one.no_nearer; }))
      plan.conclusion.push_back(
          "nothing has been read that is abnormal for certain; what was read again and is "
          "undecided as before is no step any more: only what settles it, as said above, says more");
    else
      plan.conclusion.push_back(apart ? "together these readings are not healthy"
                                      : "nothing abnormal has been read so far");
  }
}

// Of all limits that the steps show, each once.
void say_what_is_doubtful(Plan& plan, const Resolved& resolved,
                          const std::optional<Part_temperature>& temperature) {
  const auto& tests = resolved.document->profile()->tests;
  for (const auto* steps : {&plan.steps, &plan.more})
    for (const Plan_step& step : *steps)
      for (std::string& doubt : doubts_of(resolved, tests.find(step.test)->value, temperature))
        add_once(plan.remarks, std::move(doubt));
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
  out.push_back("this looks for one fault, and there may be a second: where a code is still there after what "
                "was found is "
                "put right, plan anew with the readings that were taken since");
  out.push_back(
      "the control board and what supplies it are left for the end, whether they are listed or not: no "
      "dead test shows either to be good or bad. To look at them live leaves dead testing, and so this "
      "plan: only by those competent for live work, by the maker's procedure; no board is replaced merely "
      "because nothing else was found");
}

}

Plan plan(const Resolved& resolved, const Plan_request& request, const Judge_means& means) {
  if (resolved.document->profile() == nullptr) {
    Plan none;
    none.cautions = cautions_for(Profile());
    none.problems.emplace_back("there is nothing to plan by: the document is no profile");
    return none;
  }
  Found_codes found =
      find_codes(*resolved.document->profile(), request.codes, request.model, request.software);
  return plan_faults(resolved, std::move(found), request, means);
}

Plan plan_faults(const Resolved& resolved, Found_codes found, const Plan_request& request,
                 const Judge_means& means) {
  const Profile& profile = *resolved.document->profile();
  Plan empty;
  empty.profile = std::string(*profile.id);
  empty.revision = *profile.revision;
  empty.cautions = cautions_for(profile);
  empty.remarks = std::move(found.remarks);
  empty.problems = std::move(found.problems);
  if (request.temperature)
    if (std::string none = no_such_temperature(request.temperature->kelvin); !none.empty())
      empty.problems.push_back(std::move(none));
  if (!empty.problems.empty() || found.faults.empty()) return empty;
  for (const Planned_fault& one : found.faults)
    empty.codes.push_back({std::string(one.id), displayed(one.fault->display),
                           one.fault->meaning ? std::string(*one.fault->meaning) : "",
                           raised_words(one.fault->raised),
                           one.fault->note ? std::string(*one.fault->note) : ""});

  if (const std::string why = too_many(found.faults); !why.empty()) {
    empty.problems.push_back(why);
    return empty;
  }
  const Situation situation = situation_of(resolved, found.faults, request.model);
  if (situation.failures.size() * situation.tests.size() > largest_planned) {
    empty.problems.push_back(too_many(situation.failures.size(), situation.tests.size()));
    return empty;
  }
  Planner planner{resolved, situation, request, std::move(empty)};
  Order_state state = beginning(situation.order);
  std::vector<Evidence> all;
  bool contradiction = false;
  if (!request.readings.empty()) {
    all = judged_readings(resolved, situation, request, means, planner.plan);
    state = state_after(situation, all, contradiction);
    leave_out_incomparable(situation, request, all, state);
    conclude(planner.plan, planner, all, state, contradiction);
  }
  planner.list_suspects(state, all);
  planner.lay_out(state);
  say_what_remains(planner.plan, situation);
  say_what_is_doubtful(planner.plan, resolved, request.temperature);
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
