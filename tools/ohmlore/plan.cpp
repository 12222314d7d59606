// ohmlore plan: which tests in which order, and what each outcome means.
#include <cstdio>
#include <filesystem>
#include <memory>

#include <fmt/format.h>

#include "commands.h"
#include "job.h"
#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"
#include "ohmlore/job.h"
#include "ohmlore/text.h"

namespace {

struct Plan_options {
  std::string profile;
  std::vector<std::string> codes;
  std::string model, software, temperature, meter, leads, rule, readings, record, format = "text";
  std::string serial, who, time;
  std::optional<std::string> root;
};

bool read_means(const Plan_options& options, ohmlore::Judge_means& means) {
  if (!read_option("--meter", options.meter, ohmlore::parse_meter, means.meter) ||
      !read_option("--leads", options.leads, ohmlore::parse_leads, means.leads))
    return false;
  if (!options.rule.empty()) means.rule = decision_rule(options.rule);
  return true;
}

// The record or list that --readings names; false, and said, where it cannot be used.
bool read_readings(const Plan_options& options, ohmlore::Job& job) {
  using namespace ohmlore;
  if (options.readings.empty()) return true;
  std::string why;
  const auto bytes = read_file(options.readings, why);
  if (!bytes) {
    complain(fmt::format("{}: cannot be read: {}", options.readings, why));
    return false;
  }
  Job_read read = read_job(options.readings, *bytes);
  complain(read.findings);
  for (const std::string& problem : read.problems) complain(problem);
  if (!read.job) {
    if (!read.findings.empty())
      complain(fmt::format("{}: nothing is planned from a record that does not read without errors",
                           options.readings));
    return false;
  }
  job = std::move(*read.job);
  return true;
}

// Whether the record may be written there, before anything else is done.
bool can_write(const Plan_options& options) {
  if (options.record.empty()) return true;
  if (!options.record.ends_with(".json") && !options.record.ends_with(".md")) {
    complain(fmt::format("--record {}: a record is a .json, to go on from, or a .md, to print and file",
                         options.record));
    return false;
  }
  if (ohmlore::is_place_of_document(options.record)) {
    complain(fmt::format("--record: no record is written to {}: the name is that of a document; name "
                         "another, such as job.json",
                         options.record));
    return false;
  }
  std::error_code error;
  if (!std::filesystem::exists(options.record, error) ||
      std::filesystem::equivalent(options.record, options.readings, error))
    return true;
  complain(fmt::format(
      "--record {}: there is such a file, and records are not overwritten but by themselves: name "
      "another, or go on from it with --readings",
      options.record));
  return false;
}

int plan(const Plan_options& options) {
  using namespace ohmlore;
  if (options.profile == "-") return complain(no_input_for_profile);
  Judge_means means;
  Job job;
  if (!read_means(options, means) || !read_readings(options, job) || !can_write(options)) return 2;
  if (options.codes.empty() && job.codes.empty())
    return complain(
        fmt::format("nothing to plan: write the code that the appliance shows, as in ohmlore plan {} H1",
                    options.profile));
  Plan_request request;
  request.codes = options.codes;
  if (!options.model.empty()) request.model = options.model;
  if (!options.software.empty()) request.software = options.software;
  if (!options.temperature.empty()) {
    std::string problem;
    request.temperature = parse_part_temperature(options.temperature, problem);
    if (!request.temperature) return complain(fmt::format("--temperature: {}", problem));
    for (Job_reading& reading : job.readings)
      if (reading.temperature.empty()) reading.temperature = options.temperature;
  }
  // What is stated holds, and the record is to say so.
  if (!options.rule.empty()) job.decision_rule.clear();
  if (!options.meter.empty()) job.accuracy = options.meter;
  if (!options.leads.empty()) job.leads = options.leads;
  if (!options.serial.empty()) job.serial = options.serial;
  if (!options.who.empty()) job.who = options.who;
  if (!options.time.empty()) job.time = options.time;

  const Job_run result = plan_job(options.profile, request, job, means, options.root);
  const Plan_run& run = result.run;
  complain(run.findings);
  warn(run.warnings);
  if (run.plan && !run.plan->codes.empty()) {
    print(options.format == "json" ? json_report(*run.plan) : text_report(*run.plan));
    std::fflush(stdout);
  }
  for (const std::string& trouble : run.troubles) complain(trouble);
  if (!run.troubles.empty() || !run.plan) return 2;
  const int status = run.findings.empty() ? 0 : 1;
  if (options.record.empty()) return status;
  std::string why;
  const std::string record =
      options.record.ends_with(".md") ? markdown_report(result.record) : json_report(result.record);
  if (!write_file(options.record, record, why))
    return complain(fmt::format("{}: cannot be written: {}", options.record, why));
  return status;
}

}

void add_plan(CLI::App& app, int& status) {
  auto options = std::make_shared<Plan_options>();
  CLI::App* command = app.add_subcommand(
      "plan", "Say which tests to do in which order for a fault code, and what each outcome means");
  const auto text = [&](const char* name, std::string& into, const char* type, const char* help) {
    return command->add_option(name, into, help)->type_name(type);
  };
  text("PROFILE", options->profile, "", "the profile of the board")->required();
  command
      ->add_option(
          "CODE", options->codes,
          "what the appliance shows, \"H1\", \"A4 1\", \"amber 3 flashes\", or the id of the fault;\n"
          "several where it shows several")
      ->type_name("")
      ->expected(-1);
  text("--model", options->model, "MODEL", "the appliance, where models of the board differ");
  text("--software", options->software, "VERSION", "of the board, where a code means different things");
  text("--readings", options->readings, "FILE",
       "what has been measured: a record of this job, or lines such as\n"
       "flow_sensor_resistance 15.25 kΩ at 15 °C ± 1 K, answers");
  text("--record", options->record, "FILE",
       "write the record of the job: .json, to go on from with --readings, or .md, to print and file");
  text("--temperature,-t", options->temperature, "T",
       "of the parts: for what they should read, and for readings without one");
  text("--meter", options->meter, "ACCURACY",
       "as for ohmlore judge; without it, the record's, else that of corpus.json");
  text("--leads", options->leads, "R", "what the leads read, tips together; 0 where they were nulled");
  text("--decision-rule", options->rule, "RULE", "guarded (the default), guarded-acceptance or simple")
      ->check(one_of(decision_rule_words()));
  text("--serial", options->serial, "NUMBER", "of the appliance, for the record");
  text("--who", options->who, "WHO", "measured, for the record: the engineer, never the customer");
  text("--time", options->time, "TIME", "of the work, for the record");
  add_root(*command, options->root);
  add_format(*command, options->format);
  command->footer(
      "Exit status: 0 planned, 1 also, but by a profile with errors, 2 the work could not be done.");
  command->callback([options, &status] { status = plan(*options); });
}
