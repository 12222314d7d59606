// Rules by their slug, and in which set of rules each of them is.
#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "ohmlore/lint.h"

namespace ohmlore {

std::string_view name_of(Family family) {
  static constexpr std::string_view names[] = {"json", "shape",  "unit",   "band",   "ntc",     "ptc",
                                               "rtd",  "copper", "heater", "coil",   "network", "meter",
                                               "pin",  "fault",  "safety", "source", "corpus"};
  return names[static_cast<std::size_t>(family)];
}

std::string_view name_of(Rule_status status) {
  static constexpr std::string_view names[] = {"preview", "stable", "deprecated"};
  return names[static_cast<std::size_t>(status)];
}

const Rule_entry* find_rule(std::string_view slug) {
  const auto rules = all_rules();
  const auto found =
      std::lower_bound(rules.begin(), rules.end(), slug,
                       [](const Rule_entry& entry, std::string_view s) { return entry.slug < s; });
  return found != rules.end() && found->slug == slug ? &*found : nullptr;
}

const Rule& rule_of(std::string_view slug) {
  static constexpr Rule of_any_reader = {.summary = "A reader refuses what stands here."};
  const Rule_entry* entry = find_rule(slug);
  return entry != nullptr ? *entry->rule : of_any_reader;
}

std::string name_of(Ruleset ruleset) { return fmt::format("{}.{}", ruleset.major, ruleset.minor); }

std::string life_of(const Rule& rule) {
  if (rule.status == Rule_status::deprecated)
    return fmt::format("{}, replaced by {}", name_of(rule.status), rule.replaced_by);
  const bool since_later = rule.status == Rule_status::stable && rule.since != Ruleset{};
  return fmt::format("{}{}", name_of(rule.status), since_later ? " since " + name_of(rule.since) : "");
}

std::optional<Ruleset> ruleset_of(std::string_view text) {
  if (!is_version(text)) return std::nullopt;
  const std::size_t point = text.find('.');
  const auto number = [](std::string_view digits) {
    unsigned value = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return value;
  };
  return Ruleset{number(text.substr(0, point)), number(text.substr(point + 1))};
}

static std::optional<Ruleset> pinned(const Corpus& corpus) {
  return corpus.policy.ruleset ? ruleset_of(*corpus.policy.ruleset) : std::nullopt;
}

bool may_fail(const Rule& rule, const Corpus* corpus) {
  if (rule.status == Rule_status::preview) return false;
  const auto most = corpus != nullptr ? pinned(*corpus) : std::nullopt;
  return !most || rule.since <= *most;
}

Severity failing_level(const Corpus* corpus) {
  if (corpus == nullptr || !corpus->policy.fail_on) return Severity::error;
  switch (*corpus->policy.fail_on) {
  case Failing_level::note: return Severity::note;
  case Failing_level::warning: return Severity::warning;
  case Failing_level::error: break;
  }
  return Severity::error;
}

bool fails(const Finding& finding, Severity fail_on, const Corpus* corpus) {
  return finding.severity >= fail_on && may_fail(rule_of(finding.rule), corpus);
}

std::string ruleset_problem(const Corpus& corpus, Ruleset known) {
  const auto asked = pinned(corpus);
  if (asked && *asked < Ruleset{})
    return fmt::format(
        "`ruleset` of the policy is {}, and the first set of rules is {}: no rule could fail; name "
        "a set that there is",
        name_of(*asked), name_of(Ruleset{}));
  if (!asked || *asked <= known) return {};
  return fmt::format(
      "`ruleset` of the policy is {}, and this program knows the rules up to {}; upgrade the program",
      name_of(*asked), name_of(known));
}

bool can_be_waived(const Rule& rule) { return rule.check != nullptr || rule.judge != nullptr; }

}
