// Plans shown: as text for people, as JSON for programs.
#include <fmt/format.h>

#include "lint/rule.h"
#include "model/spoken.h"
#include "ohmlore/plan.h"
#include "ohmlore/report.h"
#include "plan/likelier.h"
#include "plan/words.h"
#include "report/json_members.h"
#include "report/lines.h"
#include "text/small_letters.h"

namespace ohmlore {
namespace {

using namespace rules;

std::string joined(const std::vector<std::string>& texts, const char* between) {
  return fmt::format("{}", fmt::join(texts, between));
}

std::string share_words(double share) {
  return share > 0 && share < 0.005 ? "below 1 %" : fmt::format("{:.0f} %", 100 * share);
}

std::string side_words(const Plan_step& step) {
  return step.side.empty() ? std::string() : fmt::format(", {}", spoken(step.side));
}

// The number of a test's step, or its name.
struct Step_numbers {
  const Plan& plan;
  std::string operator()(const std::string& test) const {
    for (std::size_t i = 0; i < plan.steps.size(); ++i)
      if (plan.steps[i].test == test) return fmt::format("step {}", i + 1);
    for (std::size_t i = 0; i < plan.more.size(); ++i)
      if (plan.more[i].test == test) return fmt::format("step {}", letter(i));
    return test;
  }
  static std::string letter(std::size_t i) {
    return i < 26 ? std::string(1, static_cast<char>('A' + i)) : fmt::format("A{}", i);
  }
};

// After an abnormal reading, what is rarer than this is for the plan that goes on with the readings.
constexpr double worth_showing = 0.1;

bool is_healthy(const Plan_outcome& one) { return !one.shown.empty() && one.shown[0] == Showing::healthy; }

bool has(const std::vector<std::string>& texts, const std::string& text) {
  return std::find(texts.begin(), texts.end(), text) != texts.end();
}

// What is to be done after every reading that is not healthy, where there are several such.
std::vector<std::string> shared_advice(const std::vector<const Plan_outcome*>& outcomes) {
  std::vector<const Plan_outcome*> abnormal;
  for (const Plan_outcome* one : outcomes)
    if (!is_healthy(*one)) abnormal.push_back(one);
  std::vector<std::string> shared;
  if (abnormal.size() < 2) return shared;
  for (const std::string& then : abnormal[0]->then)
    if (std::all_of(abnormal.begin(), abnormal.end(),
                    [&](const Plan_outcome* one) { return has(one->then, then); }))
      shared.push_back(then);
  return shared;
}

std::string margin_at(std::size_t depth) {
  return std::string(2 + 4 * depth, ' ') + (depth == 0 ? "if" : "then, if");
}

void show_outcomes(Lines& lines, const Step_numbers& number, const std::vector<Plan_outcome>& outcomes,
                   std::size_t depth);

// `said`: of what is to be done then.
void show_outcome(Lines& lines, const Step_numbers& number, const Plan_outcome& one, std::size_t depth,
                  const std::vector<std::string>& said) {
  const bool healthy = is_healthy(one);
  std::string text;
  const auto add = [&](const std::string& sentence) {
    text += text.empty() ? sentence : ". " + with_capital(sentence);
  };
  if (healthy && depth == 0) {
    add(one.rules_out.empty() ? "rules nothing out" : "rules out " + joined(one.rules_out, "; "));
    if (!one.not_seen.empty()) add("does not rule out " + joined(one.not_seen, "; "));
    add(one.next.empty() ? "no test is left" : "go on with " + number(one.next));
  } else {
    if (!one.points_to.empty()) add("points to " + joined(one.points_to, "; or "));
    if (healthy && !one.rules_out.empty()) add("rules out " + joined(one.rules_out, "; "));
    if (!one.next.empty()) add("go on with " + number(one.next));
    for (const std::string& then : one.then)
      if (!has(said, then)) add(then);
  }
  lines.wrapped(fmt::format("{} {}: ", margin_at(depth), one.words), printable(text));
  show_outcomes(lines, number, one.outcomes, depth + 1);
}

void show_outcomes(Lines& lines, const Step_numbers& number, const std::vector<Plan_outcome>& outcomes,
                   std::size_t depth) {
  std::vector<const Plan_outcome*> shown;
  for (const Plan_outcome& one : outcomes)
    if (depth == 0 || one.probability >= worth_showing) shown.push_back(&one);
  const std::vector<std::string> shared = shared_advice(shown);
  for (const Plan_outcome* one : shown) show_outcome(lines, number, *one, depth, shared);
  std::string text;
  for (const std::string& then : shared) text += text.empty() ? then : ". " + with_capital(then);
  if (!text.empty()) lines.wrapped(margin_at(depth) + " not healthy: ", printable(text));
}

std::string suspect_words(const Plan_suspect& suspect) {
  const auto counts = [](Standing standing) {
    return standing != Standing::ruled_out && standing != Standing::no_sign;
  };
  std::string out = suspect.name, modes;
  for (const Plan_mode& one : suspect.modes)
    if (one.mode && (counts(one.standing) || !counts(suspect.standing)))
      modes += fmt::format("{}{}", modes.empty() ? "" : ", ", spoken(*one.mode));
  if (!modes.empty()) out += ": " + modes;
  if (!suspect.where.empty()) out += fmt::format(" ({})", suspect.where);
  for (const std::string& why : suspect.not_decidable) out += fmt::format(". No dead test decides: {}", why);
  for (const std::string& note : suspect.notes) out += fmt::format(". Note: {}", note);
  return out;
}

std::string left_words(const Plan& plan, const Plan_left& left) {
  const Plan_suspect& suspect = plan.suspects[left.suspect];
  std::string out = suspect.name;
  for (std::size_t i = 0; i < left.modes.size(); ++i)
    out += fmt::format("{}{}", i == 0 ? ": " : ", ", spoken(left.modes[i]));
  const std::string why = suspect.kind == Suspect_kind::cause ? "not electrical" : "no dead test decides";
  if (!left.why.empty()) out += left.why == why ? "; " + why : fmt::format("; {}: {}", why, left.why);
  return out;
}

void show_instructions(Lines& lines, const Plan& plan, const Plan_step& step, const std::string& number) {
  lines.wrapped(fmt::format("{}. ", number),
                fmt::format("{}: {}, {}{}; about {:.0f} min", step.test, printable(step.name), step.probes,
                            side_words(step), step.minutes));
  for (const Plan_left& one : step.look_first) lines.add("look first", left_words(plan, one));
  for (std::size_t i = 0; i < step.prepare.size(); ++i) lines.add(i == 0 ? "prepare" : "", step.prepare[i]);
  lines.add("leads", joined(step.leads, " and "));
  const std::string limits = limits_words(step);
  lines.add("should read", limits.empty() ? "the profile does not say" : limits);
  if (!step.response.empty()) lines.add("and answer", step.response);
  if (!step.note.empty()) lines.add("note", step.note);
}

void show_suspects(Lines& lines, const Plan& plan) {
  double named = 0;
  for (const Plan_suspect& suspect : plan.suspects) named += suspect.now;
  lines.out += plan.readings ? "suspects, by their order in the profile and by what was read:\n"
                             : "suspects, likeliest first by their order in the profile:\n";
  std::vector<const Plan_suspect*> order;
  for (const Plan_suspect& suspect : plan.suspects) order.push_back(&suspect);
  std::stable_sort(order.begin(), order.end(),
                   [](const Plan_suspect* a, const Plan_suspect* b) { return is_likelier(a->now, b->now); });
  for (const Plan_suspect* suspect : order) {
    const std::string share = suspect->standing == Standing::ruled_out ? std::string("ruled out")
                              : suspect->standing == Standing::no_sign ? std::string("no sign")
                                                                       : share_words(suspect->now);
    lines.wrapped(fmt::format("  {:>9}  ", share),
                  printable(suspect_words(*suspect)) +
                      (plan.codes.size() > 1 ? fmt::format(" [{}]", joined(suspect->codes, ", ")) : ""));
  }
  if (named < 1 - 1e-6)
    lines.wrapped(fmt::format("  {:>9}  ", share_words(1 - named)),
                  "something that the profile does not name");
  lines.out += '\n';
}

}

std::string text_report(const Plan& plan) {
  Lines lines;
  for (const std::string& caution : plan.cautions) lines.wrapped("! ", printable(caution));
  lines.out += '\n';
  for (const Plan_code& code : plan.codes) {
    lines.wrapped("", fmt::format("{}: {}", printable(code.display), printable(code.meaning)));
    if (!code.raised.empty()) lines.add("raised", code.raised);
    if (!code.note.empty()) lines.add("note", code.note);
  }
  for (const std::string& remark : plan.remarks) lines.wrapped("note: ", printable(remark));
  lines.out += '\n';
  if (!plan.conclusion.empty()) {
    lines.out += "so far:\n";
    for (const std::string& one : plan.conclusion) lines.wrapped("  - ", printable(one));
    lines.out += '\n';
  }
  show_suspects(lines, plan);

  const Step_numbers number{plan};
  if (plan.steps.empty()) {
    lines.wrapped("", plan.readings ? "No test that the suspects above name is worth its work now."
                                    : "The suspects above name no test that decides anything.");
  } else {
    double minutes = 0;
    for (const Plan_step& step : plan.steps) minutes += step.minutes;
    lines.wrapped("", fmt::format("Measure in this order, as long as everything reads healthy: what decides "
                                  "most for the least work comes first "
                                  "(about {:.0f} min in all).",
                                  minutes));
  }
  lines.out += '\n';
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    const Plan_step& step = plan.steps[i];
    show_instructions(lines, plan, step, fmt::format("{}", i + 1));
    lines.add("why now", fmt::format("it looks at {} of what is likely, for {:.0f} min",
                                     share_words(step.looked_at), step.minutes));
    show_outcomes(lines, number, step.outcomes, 0);
    lines.out += '\n';
  }
  if (!plan.more.empty()) {
    lines.out += "Only where a step above asks for it:\n\n";
    for (std::size_t i = 0; i < plan.more.size(); ++i) {
      show_instructions(lines, plan, plan.more[i], Step_numbers::letter(i));
      lines.out += '\n';
    }
  }
  lines.out += plan.steps.empty() ? "What remains:\n" : "When everything reads healthy, there remain:\n";
  for (const Plan_left& one : plan.left) lines.wrapped("  - ", printable(left_words(plan, one)));
  if (plan.left.empty()) lines.out += "  - nothing that the profile names\n";
  lines.out += '\n';
  for (const std::string& one : plan.all_healthy) lines.wrapped("! ", printable(one));
  lines.out += '\n';
  lines.wrapped(
      "", fmt::format("profile {}, revision {}; minutes and likelihoods are there to compare, and no more "
                      "(spec/v1/planning.md)",
                      plan.profile, plan.revision));
  return lines.out;
}

namespace {

void outcome_values(Json_writer& out, const Plan_outcome& one) {
  member(out, "words", one.words);
  words(out, "shown", one.shown);
  share(out, "probability", one.probability);
  texts(out, "rules_out", one.rules_out);
  texts(out, "points_to", one.points_to);
  texts(out, "not_seen", one.not_seen);
  if (!one.next.empty()) member(out, "next", one.next);
  texts(out, "then", one.then);
  list(out, "outcomes", one.outcomes, [&](const Plan_outcome& then) { outcome_values(out, then); });
}

void left_values(Json_writer& out, const Plan_left& left) {
  number(out, "suspect", left.suspect);
  words(out, "modes", left.modes);
  if (!left.why.empty()) member(out, "why", left.why);
}

void step_values(Json_writer& out, const Plan_step& step) {
  member(out, "test", step.test);
  member(out, "component", step.component);
  member(out, "name", step.name);
  member(out, "probes", step.probes);
  member(out, "side", step.side);
  texts(out, "prepare", step.prepare);
  texts(out, "leads", step.leads);
  list(out, "limits", step.limits, [&](const Plan_limits& one) {
    if (one.kelvin) temperature(out, "at", *one.kelvin);
    low_and_high(out, one.ohm);
  });
  member(out, "limit_words", step.limit_words);
  if (!step.response.empty()) member(out, "response", step.response);
  if (!step.note.empty()) member(out, "note", step.note);
  quantity(out, "work", 60 * step.minutes, Dimension::time);
  share(out, "looked_at", step.looked_at);
  list(out, "look_first", step.look_first, [&](const Plan_left& one) { left_values(out, one); });
  list(out, "outcomes", step.outcomes, [&](const Plan_outcome& one) { outcome_values(out, one); });
}

}

std::string json_report(const Plan& plan) {
  return written_report("ohmlore-plan/1.0", [&](Json_writer& out) {
    member(out, "profile", plan.profile);
    number(out, "revision", static_cast<std::uint64_t>(plan.revision));
    texts(out, "cautions", plan.cautions);
    list(out, "codes", plan.codes, [&](const Plan_code& code) {
      member(out, "id", code.id);
      member(out, "display", code.display);
      member(out, "meaning", code.meaning);
      if (!code.raised.empty()) member(out, "raised", code.raised);
      if (!code.note.empty()) member(out, "note", code.note);
    });
    list(out, "suspects", plan.suspects, [&](const Plan_suspect& suspect) {
      word(out, "kind", suspect.kind);
      if (!suspect.id.empty()) member(out, "id", suspect.id);
      member(out, "name", suspect.name);
      if (!suspect.where.empty()) member(out, "where", suspect.where);
      if (!suspect.orderable.empty()) member(out, "orderable", suspect.orderable);
      texts(out, "codes", suspect.codes);
      word(out, "standing", suspect.standing);
      share(out, "before", suspect.before);
      share(out, "now", suspect.now);
      list(out, "modes", suspect.modes, [&](const Plan_mode& one) {
        if (one.mode) word(out, "mode", *one.mode);
        word(out, "standing", one.standing);
      });
      texts(out, "not_decidable", suspect.not_decidable);
      texts(out, "notes", suspect.notes);
    });
    texts(out, "conclusion", plan.conclusion);
    list(out, "steps", plan.steps, [&](const Plan_step& step) { step_values(out, step); });
    list(out, "more", plan.more, [&](const Plan_step& step) { step_values(out, step); });
    list(out, "left", plan.left, [&](const Plan_left& one) { left_values(out, one); });
    texts(out, "all_healthy", plan.all_healthy);
    texts(out, "remarks", plan.remarks);
    texts(out, "problems", plan.problems);
  });
}

}
