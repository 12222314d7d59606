#include "job.h"

#include <map>

#include <fmt/format.h>

std::string completed_resistance(const std::string& text) {
  const bool has_prefix = !text.empty() && (text.back() == 'k' || text.back() == 'M' || text.back() == 'K');
  if (!has_prefix || text.find_first_not_of("0123456789.") != text.size() - 1) return text;
  return text.substr(0, text.size() - 1) + (text.back() == 'M' ? " MΩ" : " kΩ");
}

std::string quantity_problem(const ohmlore::Unit_problem& problem, const std::string& option) {
  return fmt::format("{}: {}{}", option, problem.detail,
                     problem.suggestion.empty() ? std::string()
                                                : fmt::format("; did you mean \"{}\"?", problem.suggestion));
}

std::optional<ohmlore::Quantity> read_quantity(const std::string& text, ohmlore::Dimensions allowed,
                                               const std::string& option, std::string& problem) {
  auto parsed = ohmlore::parse_quantity(text, allowed);
  if (!parsed.value) problem = quantity_problem(*parsed.problem, option);
  return parsed.value;
}

static const std::map<std::string, ohmlore::Decision_rule>& decision_rules() {
  static const std::map<std::string, ohmlore::Decision_rule> rules = {
      {"guarded", ohmlore::guarded},
      {"guarded-acceptance", ohmlore::guarded_acceptance},
      {"simple", ohmlore::simple_acceptance}};
  return rules;
}

std::vector<std::string> decision_rule_words() {
  std::vector<std::string> words;
  for (const auto& [word, rule] : decision_rules()) words.push_back(word);
  return words;
}

ohmlore::Decision_rule decision_rule(const std::string& word) { return decision_rules().at(word); }
