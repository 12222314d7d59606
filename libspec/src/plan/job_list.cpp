#include "plan/job_list.h"

#include <fmt/format.h>

#include "lint/rule.h"
#include "text/cut.h"
#include "text/small_letters.h"

namespace ohmlore {
namespace {

// Takes a word and the space behind it from the front; false where another stands there.
bool take(std::string_view& text, std::string_view word) {
  if (!text.starts_with(word) || (text.size() > word.size() && text[word.size()] != ' ')) return false;
  text = trimmed(text.substr(word.size()));
  return true;
}

std::string clause_problem(std::string_view clause, Job_reading& reading) {
  const auto twice = [whole = clause] {
    return fmt::format("{} is the second of its kind; write each measurement in a line of its own",
                       rules::quoted(whole));
  };
  struct Other {
    std::string_view word;
    std::string Job_reading::*member;
  };
  constexpr Other others[] = {{"on part", &Job_reading::at_part},
                              {"after", &Job_reading::after},
                              {"reversed", &Job_reading::reverse},
                              {"twin", &Job_reading::twin}};
  for (const Other& other : others) {
    if (!take(clause, other.word)) continue;
    if (clause.empty()) return fmt::format("{} comes without a reading", rules::quoted(other.word));
    if (!(reading.*other.member).empty()) return twice();
    reading.*other.member = std::string(clause);
    return {};
  }
  if (clause != "answers" && clause != "does not answer")
    return fmt::format(
        "{} is none of \"on part READING\", \"after READING\", \"reversed READING\", \"twin READING\", "
        "\"answers\" and \"does not answer\"",
        rules::quoted(clause));
  if (reading.answered) return twice();
  reading.answered = clause == "answers";
  return {};
}

// "15,25 kΩ": a comma separates what was read, and nothing else.
bool has_comma_in_number(std::string_view text) {
  for (std::size_t i = 1; i + 1 < text.size(); ++i)
    if (text[i] == ',' && is_digit(text[i - 1]) && is_digit(text[i + 1])) return true;
  return false;
}

}

std::vector<Job_reading> read_list(std::string_view name, std::string_view text,
                                   std::vector<std::string>& problems) {
  std::vector<Job_reading> readings;
  std::size_t number = 0;
  while (!text.empty()) {
    std::string_view line = cut(text, '\n');
    ++number;
    line = trimmed(line.substr(0, line.find('#')), " \t\r");
    if (line.empty()) continue;
    const auto problem = [&](const std::string& why) {
      problems.push_back(fmt::format("{}:{}: {}", printable(name), number, why));
    };
    Job_reading reading;
    const std::size_t space = std::min(line.find_first_of(" \t"), line.size());
    reading.test = std::string(line.substr(0, space));
    std::string_view rest = trimmed(line.substr(space));
    if (has_comma_in_number(rest)) {
      problem(fmt::format("a comma stands within a number of {}; write a decimal point, and nothing between "
                          "thousands",
                          rules::quoted(rest)));
      continue;
    }
    std::string_view first = trimmed(cut(rest, ','));
    if (const std::size_t at = first.find(" at "); at != std::string_view::npos) {
      reading.temperature = std::string(trimmed(first.substr(at + 4)));
      first = trimmed(first.substr(0, at));
    }
    reading.reading = std::string(first);
    if (first.empty() || !is_id(reading.test)) {
      problem("a line is a test and what the meter showed, as in flow_sensor_resistance 15.25 kΩ at 15 °C");
      continue;
    }
    std::string why;
    while (!rest.empty() && why.empty()) why = clause_problem(trimmed(cut(rest, ',')), reading);
    if (why.empty())
      readings.push_back(std::move(reading));
    else
      problem(why);
  }
  return readings;
}

}
