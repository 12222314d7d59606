#include "plan/job_list.h"

#include <fmt/format.h>

#include "lint/rule.h"
#include "text/cut.h"

namespace ohmlore {
namespace {

// Takes a word and the space behind it from the front; false where another stands there.
bool take(std::string_view& text, std::string_view word) {
  if (!text.starts_with(word) || (text.size() > word.size() && text[word.size()] != ' ')) return false;
  text = trimmed(text.substr(word.size()));
  return true;
}

std::string clause_problem(std::string_view clause, Job_reading& reading) {
  if (take(clause, "on part"))
    reading.at_part = std::string(clause);
  else if (take(clause, "after"))
    reading.after = std::string(clause);
  else if (take(clause, "reversed"))
    reading.reverse = std::string(clause);
  else if (take(clause, "twin"))
    reading.twin = std::string(clause);
  else if (clause == "answers")
    reading.answered = true;
  else if (clause == "does not answer")
    reading.answered = false;
  else
    return fmt::format(
        "{} is none of \"on part READING\", \"after READING\", \"reversed READING\", \"twin READING\", "
        "\"answers\" and \"does not answer\"",
        rules::quoted(clause));
  return {};
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
