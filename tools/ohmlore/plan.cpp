// ohmlore plan: which tests in which order, and what each outcome means.
#include <cstdio>
#include <memory>

#include <fmt/format.h>

#include "commands.h"
#include "job.h"
#include "ohmlore/plan.h"
#include "ohmlore/report.h"
#include "ohmlore/text.h"

namespace {

struct Options {
  std::string profile;
  std::vector<std::string> codes;
  std::string model, software, temperature, format = "text";
  std::optional<std::string> root;
};

int complain(const std::string& trouble) {
  std::fprintf(stderr, "ohmlore: %s\n", ohmlore::printable(trouble).c_str());
  return 2;
}

int plan(const Options& options) {
  using namespace ohmlore;
  if (options.profile == "-")
    return complain("the profile is read from a file, since its parts lie beside it; name the file");
  if (options.codes.empty())
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
  }
  const Plan_run run = plan_file(options.profile, request, {}, options.root);
  for (const Finding& finding : run.findings) std::fputs(text_report(finding).c_str(), stderr);
  if (run.plan && !run.plan->codes.empty()) {
    const std::string report = options.format == "json" ? json_report(*run.plan) : text_report(*run.plan);
    std::fwrite(report.data(), 1, report.size(), stdout);
    std::fflush(stdout);
  }
  for (const std::string& trouble : run.troubles) complain(trouble);
  return run.troubles.empty() && run.plan ? 0 : 2;
}

}

void add_plan(CLI::App& app, int& status) {
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(
      "plan", "Say which tests to do in which order for a fault code, and what each outcome means");
  const auto text = [&](const char* name, std::string& into, const char* type, const char* help) {
    return command->add_option(name, into, help)->type_name(type);
  };
  text("PROFILE", options->profile, "", "the profile of the board")->required();
  command
      ->add_option(
          "CODE", options->codes,
          "what the appliance shows, \"H1\", \"A4 1\", \"amber 3 flashes\", or the id of the fault;\nseveral "
          "where it shows several")
      ->type_name("")
      ->expected(-1);
  text("--model", options->model, "MODEL", "the appliance, where models of the board differ");
  text("--software", options->software, "VERSION", "of the board, where a code means different things");
  text("--temperature,-t", options->temperature, "T", "of the parts, for what they should read: \"14 °C\"");
  text("--root", *(options->root = std::string(), &*options->root), "FOLDER",
       "the folder that holds corpus.json; without it, the nearest at or above");
  text("--format", options->format, "FORMAT", "text for people (the default), json for programs")
      ->check(one_of({"text", "json"}));
  command->footer("Exit status: 0 planned, 2 the work could not be done.");
  command->callback([options, &status] {
    if (options->root && options->root->empty()) options->root.reset();
    status = plan(*options);
  });
}
