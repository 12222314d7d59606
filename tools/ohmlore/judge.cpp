// ohmlore judge: is a reading good, bad, or too close to call?
#include <cstdio>
#include <cstdlib>
#include <map>
#include <memory>

#include <fmt/format.h>

#include "commands.h"
#include "job.h"
#include "ohmlore/corpus.h"
#include "ohmlore/job.h"
#include "ohmlore/text.h"

namespace {

struct Judge_options {
  std::string profile;
  std::vector<std::string> readings; // TEST READING, as often as wanted
  std::string temperature, place, meter, leads, rule = "guarded", room;
  std::string reverse, twin, at_part, after, after_temperature;
  std::string minutes_since_running, record;
  std::optional<std::string> root;
  std::string format = "text";
};

const std::map<std::string, ohmlore::Temperature_place>& places() {
  using ohmlore::Temperature_place;
  static const std::map<std::string, Temperature_place> all = {{"immersed", Temperature_place::immersed},
                                                               {"on-part", Temperature_place::on_part},
                                                               {"on-pipe", Temperature_place::on_pipe},
                                                               {"room", Temperature_place::room}};
  return all;
}
std::vector<std::string> place_words() {
  std::vector<std::string> words;
  for (const auto& [word, place] : places()) words.push_back(word);
  return words;
}

// From 0 to 99999.
std::optional<double> whole_number(const std::string& text) {
  if (text.empty() || text.size() > 5 || text.find_first_not_of("0123456789") != std::string::npos)
    return std::nullopt;
  return std::stoi(text);
}

bool read_temperature(const Judge_options& options, std::optional<ohmlore::Part_temperature>& temperature) {
  if (!read_option("--temperature", options.temperature, ohmlore::parse_part_temperature, temperature))
    return false;
  if (temperature && !options.place.empty()) temperature->place = places().at(options.place);
  if (temperature && !options.minutes_since_running.empty()) {
    const auto minutes = whole_number(options.minutes_since_running);
    if (!minutes) {
      complain(fmt::format(
          "--minutes-since-running: \"{}\" is no number of whole minutes; write 15, or leave it out "
          "where the part has not run today",
          options.minutes_since_running));
      return false;
    }
    temperature->minutes_since_running = *minutes;
  }
  return true;
}

// A record or a list: its readings, with the meter, leads and rule that it names; empty, and said, where it
// cannot be used.
std::optional<ohmlore::Job> read_record(const Judge_options& options,
                                        std::vector<ohmlore::Judge_request>& requests,
                                        ohmlore::Judge_means& means) {
  using namespace ohmlore;
  std::string why;
  const auto bytes = read_file(options.record, why);
  if (!bytes) {
    complain(fmt::format("{}: cannot be read: {}", options.record, why));
    return std::nullopt;
  }
  Job_read read = read_job(options.record, *bytes);
  complain(read.findings);
  std::vector<std::string> problems = std::move(read.problems);
  if (read.job) {
    add_means(*read.job, means, problems);
    for (Judge_request& request : readings_of(*read.job, problems)) requests.push_back(std::move(request));
  }
  for (const std::string& problem : problems) complain(problem);
  return problems.empty() ? std::move(read.job) : std::nullopt;
}

// What does not go together, or nothing.
std::string problem_of(const Judge_options& options) {
  if (options.profile == "-") return no_input_for_profile;
  if (options.readings.empty() && options.record.empty())
    return fmt::format(
        "nothing to judge: write a test of {} and what the meter showed, as in flow_sensor_resistance "
        "\"15.25 kΩ\"",
        options.profile);
  if (!options.readings.empty() && !options.record.empty())
    return "--readings names all readings: leave TEST READING out";
  if (options.readings.size() % 2 != 0)
    return fmt::format(
        "`{}` stands alone: each test is followed by its reading, as in flow_sensor_resistance "
        "\"15.25 kΩ\"",
        options.readings.back());
  return {};
}

bool read_means(const Judge_options& options, ohmlore::Judge_means& means) {
  means.rule = decision_rule(options.rule);
  return read_option("--meter", options.meter, ohmlore::parse_meter, means.meter) &&
         read_option("--leads", options.leads, ohmlore::parse_leads, means.leads) &&
         read_option("--room", options.room, ohmlore::parse_room, means.room);
}

// TEST READING, each as a request; false, and said, where one cannot be read.
bool read_pairs(const Judge_options& options, std::vector<ohmlore::Judge_request>& requests) {
  for (std::size_t i = 0; i < options.readings.size(); i += 2) {
    ohmlore::Judge_request& request = requests.emplace_back();
    request.test = options.readings[i];
    std::string problem;
    const auto reading = ohmlore::parse_reading(options.readings[i + 1], problem);
    if (!reading) {
      complain(fmt::format("the reading of {}: {}", request.test, problem));
      return false;
    }
    request.reading = *reading;
  }
  return true;
}

// What else was read for one test.
bool read_more(const Judge_options& options, std::vector<ohmlore::Judge_request>& requests) {
  const bool more =
      !options.reverse.empty() || !options.twin.empty() || !options.at_part.empty() || !options.after.empty();
  if (more && requests.size() > 1) {
    complain("--reverse, --twin, --at-part and --after belong to one test: judge it alone");
    return false;
  }
  ohmlore::Judge_request& first = requests[0];
  return read_option("--reverse", options.reverse, ohmlore::parse_reading, first.reverse) &&
         read_option("--twin", options.twin, ohmlore::parse_reading, first.twin) &&
         read_option("--at-part", options.at_part, ohmlore::parse_reading, first.at_part) &&
         read_option("--after", options.after, ohmlore::parse_reading, first.after) &&
         read_option("--after-temperature", options.after_temperature, ohmlore::parse_part_temperature,
                     first.after_temperature);
}

int judge(const Judge_options& options) {
  using namespace ohmlore;
  if (const std::string problem = problem_of(options); !problem.empty()) return complain(problem);
  Judge_means means;
  std::optional<Part_temperature> temperature;
  std::vector<Judge_request> requests;
  if (!read_means(options, means) || !read_temperature(options, temperature) ||
      !read_pairs(options, requests))
    return 2;
  Job record;
  if (!options.record.empty()) {
    std::optional<Job> read = read_record(options, requests, means);
    if (!read) return 2;
    record = std::move(*read);
    if (requests.empty()) return complain(fmt::format("{}: no reading stands in it", options.record));
  }
  for (Judge_request& request : requests)
    if (!request.temperature) request.temperature = temperature;
  if (!read_more(options, requests)) return 2;

  const Judge_run run = judge_job(options.profile, requests, record, means, options.root);
  complain(run.findings);
  warn(run.warnings);
  if (run.verdict && !run.verdict->judgements.empty()) {
    print(options.format == "json" ? json_report(*run.verdict) : text_report(*run.verdict));
    std::fflush(stdout);
  }
  for (const std::string& trouble : run.troubles) complain(trouble);
  if (!run.troubles.empty() || !run.verdict) return 2;
  return run.verdict->result() == Conformity::within && run.findings.empty() ? 0 : 1;
}

}

void add_judge(CLI::App& app, int& status) {
  auto options = std::make_shared<Judge_options>();
  CLI::App* command =
      app.add_subcommand("judge", "Say whether a reading is good, bad, or too close to call, and why");
  const auto text = [&](const char* name, std::string& into, const char* type, const char* help) {
    return command->add_option(name, into, help)->type_name(type);
  };
  text("PROFILE", options->profile, "", "the profile of the board")->required();
  command
      ->add_option("TEST READING", options->readings,
                   "a test of the profile and what the meter showed, \"15.25 kΩ\" or OL;\n"
                   "several pairs for a set, as the windings of a motor")
      ->type_name("")
      ->expected(-1);
  CLI::Option* temperature = text("--temperature,-t", options->temperature, "T",
                                  "of the part, with what the thermometer may be off: \"14 °C ± 1 K\"");
  text("--taken", options->place, "WHERE",
       "immersed, on-part, on-pipe or room: where the temperature was taken")
      ->check(one_of(place_words()))
      ->needs(temperature);
  text("--minutes-since-running", options->minutes_since_running, "N",
       "how long ago the part last ran; without it, it has not run today")
      ->needs(temperature);
  text("--meter", options->meter, "ACCURACY",
       "\"0.8 % + 3\", for another display \"0.8 % + 3 of 2000\";\nwithout it, that of corpus.json");
  text("--leads", options->leads, "R",
       "what the leads read, tips together: \"0.2 Ω\"; 0 where they were nulled");
  CLI::Option* after =
      text("--after", options->after, "READING", "after what the test asks for was done: warmed, moved");
  text("--after-temperature", options->after_temperature, "T", "of the part then")->needs(after);
  text("--at-part", options->at_part, "READING", "on the part itself; READING is then the one at the plug");
  text("--readings", options->record, "FILE",
       "the readings of a job's record, or of a list (see ohmlore plan), judged anew");
  text("--reverse", options->reverse, "READING", "with the leads exchanged");
  text("--twin", options->twin, "READING", "of the twin, for a test that compares two");
  text("--decision-rule", options->rule, "RULE",
       "guarded (the default): at most 5 % falsely within and 5 % falsely outside;\n"
       "guarded-acceptance: 5 % falsely within, beyond a limit is outside; simple: the likelier")
      ->check(one_of(decision_rule_words()));
  text("--room", options->room, "RANGE", "where no temperature is given: \"5 °C to 30 °C\" (the default)");
  add_root(*command, options->root);
  add_format(*command, options->format);
  command->footer("Exit status: 0 within, 1 outside or too close, or by a profile with errors, 2 the work "
                  "could not be done.");
  command->callback([options, &status] { status = judge(*options); });
}
