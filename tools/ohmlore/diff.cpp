// ohmlore diff: what changed between two documents or two folders of them.
#include <cstdio>
#include <memory>

#include "commands.h"
#include "ohmlore/diff.h"
#include "ohmlore/report.h"

namespace {

struct Options {
  std::string older, newer;
  std::string format = "text";
};

int diff(const Options& options) {
  const ohmlore::Diff_run run = ohmlore::diff_paths(options.older, options.newer);
  const std::string report = options.format == "json"       ? ohmlore::json_report(run)
                             : options.format == "markdown" ? ohmlore::markdown_report(run)
                                                            : ohmlore::text_report(run);
  if (run.compared > 0 || !run.documents.empty() || options.format == "json")
    std::fwrite(report.data(), 1, report.size(), stdout);
  std::fflush(stdout);
  for (const ohmlore::Finding& finding : run.findings)
    std::fputs(ohmlore::text_report(finding).c_str(), stderr);
  for (const std::string& trouble : run.troubles)
    std::fprintf(stderr, "ohmlore: %s\n", ohmlore::printable(trouble).c_str());
  if (!run.troubles.empty()) return 2;
  return run.count(ohmlore::Change_weight::meaning) > 0 ? 1 : 0;
}

}

void add_diff(CLI::App& app, int& status) {
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(
      "diff", "Say what changed between two documents: bands, contacts, tests, suspects, or only words");
  command->add_option("OLD", options->older, "the older file, or folder of documents")
      ->type_name("")
      ->required();
  command->add_option("NEW", options->newer, "the newer file or folder")->type_name("")->required();
  command
      ->add_option("--format", options->format,
                   "text for people (the default), markdown for a review, json for programs")
      ->type_name("FORMAT")
      ->check(one_of({"text", "markdown", "json"}));
  command->footer(
      "In two folders, documents of one kind and id are compared, wherever they lie.\n"
      "Exit status: 0 no change of meaning, 1 the meaning changed, 2 the work could not be done.");
  command->callback([options, &status] { status = diff(*options); });
}
