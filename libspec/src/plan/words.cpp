#include "plan/words.h"
#include "model/word_lists.h"

#include <algorithm>

#include <fmt/format.h>

#include "judge/asked.h"
#include "judge/shown.h"
#include "lint/rule.h"
#include "model/spoken.h"
#include "plan/likelier.h"

namespace ohmlore {

OHMLORE_WORDS(Showing, "showing", OHMLORE_SHOWINGS)
OHMLORE_WORDS(Standing, "standing", OHMLORE_STANDINGS)

namespace {

std::string_view shown_words(Showing shown, const Test& test) {
  switch (shown) {
  case Showing::healthy: return "healthy";
  case Showing::over_range:
    return watches_it_rise(test) ? "OL at once, without a rise" : toggles(test) ? "OL, and stays so" : "OL";
  case Showing::near_zero: return toggles(test) ? "closed, and stays so" : "about 0 Ω";
  case Showing::higher: return "too high";
  case Showing::lower: return "too low";
  case Showing::unsteady: return "unsteady, or no answer";
  }
  return {};
}

}

std::string shown_words(const std::vector<Showing>& shown, const Test& test) {
  std::vector<std::string_view> words;
  for (const Showing one : shown) words.push_back(shown_words(one, test));
  // "OL, and stays so" has a comma of its own.
  if (std::any_of(words.begin(), words.end(), [](std::string_view one) { return one.find(',') != one.npos; }))
    return fmt::format("{}", fmt::join(words, "; or "));
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i)
    out += fmt::format("{}{}", i == 0 ? "" : i + 1 == words.size() ? " or " : ", ", words[i]);
  return out;
}

std::string limits_words(const Plan_step& step) {
  std::string out;
  for (const Plan_limits& one : step.limits)
    out += fmt::format("{}{}{}", out.empty() ? "" : "; ", shown_ohm(one.ohm),
                       one.kelvin ? " at " + rules::celsius(*one.kelvin) : "");
  if (out.empty() || step.limit_words.starts_with(out)) return step.limit_words;
  return out.find(step.limit_words) != out.npos ? out : fmt::format("{} ({})", out, step.limit_words);
}

std::string name_of(const Resolved& resolved, const Culprit& culprit) {
  switch (culprit.kind) {
  case Suspect_kind::component:
    if (const Resolved_component* component = resolved.component(culprit.id))
      if (const auto name = component->get(&Component_type::name)) return std::string(**name);
    return std::string(culprit.id);
  case Suspect_kind::harness: return fmt::format("harness of {}", culprit.id);
  case Suspect_kind::board: return "control board";
  case Suspect_kind::supply: return "supply";
  case Suspect_kind::cause: return std::string(culprit.id);
  }
  return {};
}

std::string why_of_modes(const Suspect& suspect) {
  std::string modes;
  for (const Value<Mode>& mode : suspect.modes)
    if (mode) modes += fmt::format("{}{}", modes.empty() ? "" : ", ", spoken(*mode));
  return modes.empty() ? std::string(*suspect.not_decidable)
                       : fmt::format("{}: {}", modes, *suspect.not_decidable);
}

std::vector<std::string> listed_failures(const Resolved& resolved, const Situation& situation,
                                         const std::vector<bool>& is, const std::vector<double>& weights) {
  struct Named {
    std::size_t culprit = 0;
    double weight = 0;
    std::vector<Mode> modes;
  };
  std::vector<Named> named;
  for (const std::size_t i : likeliest_first(weights)) {
    if (!is[i]) continue;
    const std::size_t culprit = situation.order.hypotheses[i].culprit;
    auto found =
        std::find_if(named.begin(), named.end(), [&](const Named& n) { return n.culprit == culprit; });
    if (found == named.end()) found = named.insert(named.end(), {culprit, 0, {}});
    found->weight += weights[i];
    const auto& mode = situation.failures[i].mode;
    if (mode && std::find(found->modes.begin(), found->modes.end(), *mode) == found->modes.end())
      found->modes.push_back(*mode);
  }
  std::stable_sort(named.begin(), named.end(),
                   [](const Named& a, const Named& b) { return is_likelier(a.weight, b.weight); });
  std::vector<std::string> out;
  for (const Named& one : named) {
    std::string text = name_of(resolved, situation.culprits[one.culprit]);
    for (std::size_t i = 0; i < one.modes.size(); ++i)
      text += fmt::format("{}{}", i == 0 ? ": " : ", ", spoken(one.modes[i]));
    out.push_back(std::move(text));
  }
  return out;
}

}
