#include "job.h"

#include <cctype>
#include <map>

#include <fmt/format.h>

std::string completed_temperature(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const bool ends = i + 1 == text.size() || text[i + 1] == ' ';
    const char before = i > 0 ? text[i - 1] : 'x';
    const bool small = c == 'c' || c == 'f' || c == 'k';
    const bool after_number =
        std::isdigit(static_cast<unsigned char>(before)) != 0 || before == ' ' || before == '.';
    if (ends && after_number && (c == 'C' || c == 'F' || small)) {
      const char letter = static_cast<char>(c & ~0x20);
      out += letter == 'K' ? "K" : std::string("°") + letter;
    } else {
      out += c;
    }
  }
  return out;
}

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
