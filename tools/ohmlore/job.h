// Quantities and rules as people type them on a command line.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "commands.h"
#include "ohmlore/judge.h"
#include "ohmlore/quantity.h"

/// "15.25k" is 15.25 kΩ here, where everything is a resistance. A bare number stays one: it is an error.
std::string completed_resistance(const std::string& text);

/// What is wrong with a quantity of an option, and what to write.
std::string quantity_problem(const ohmlore::Unit_problem& problem, const std::string& option);
/// The quantity, or the problem.
std::optional<ohmlore::Quantity> read_quantity(const std::string& text, ohmlore::Dimensions allowed,
                                               const std::string& option, std::string& problem);

/// Reads an option with a parser of the library, where it is given; false, and said, where it is wrong.
template <class T, class Into>
bool read_option(const char* option, const std::string& text,
                 std::optional<T> (*parse)(std::string_view, std::string&), Into& into) {
  if (text.empty()) return true;
  std::string problem;
  const std::optional<T> value = parse(text, problem);
  if (value)
    into = *value;
  else
    complain(fmt::format("{}: {}", option, problem));
  return value.has_value();
}

/// The words of --decision-rule, for `one_of`, and the rule of one of them.
std::vector<std::string> decision_rule_words();
ohmlore::Decision_rule decision_rule(const std::string& word);
