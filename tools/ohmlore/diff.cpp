// ohmlore diff: what changed between two documents or two folders of them, or between two schemas.
#include <cstdio>
#include <filesystem>
#include <memory>

#include <fmt/format.h>

#include "commands.h"
#include "log.h"
#include "ohmlore/compatibility.h"
#include "ohmlore/corpus.h"
#include "ohmlore/diff.h"
#include "ohmlore/report.h"

namespace {

namespace fs = std::filesystem;

struct Diff_options {
  std::string older, newer;
  std::string format = "text";
  bool of_format = false;
};

int diff(const Diff_options& options) {
  const bool from_input = options.older == "-" || options.newer == "-";
  const ohmlore::Diff_run run = ohmlore::diff_paths(
      options.older, options.newer, from_input ? all_of_stdin(ohmlore::most_bytes) : std::string());
  const std::string report = options.format == "json"       ? ohmlore::json_report(run)
                             : options.format == "markdown" ? ohmlore::markdown_report(run)
                                                            : for_log(ohmlore::text_report(run));
  if (run.compared > 0 || !run.documents.empty() || options.format != "text") print(report);
  std::fflush(stdout);
  complain(run.findings);
  for (const std::string& trouble : run.troubles) complain(trouble);
  if (!run.troubles.empty()) return 2;
  return run.count(ohmlore::Change_weight::meaning) > 0 ? 1 : 0;
}

// The schemas of documents; those of reports are for readers of another kind.
std::vector<std::pair<fs::path, fs::path>> schemas_of(const fs::path& older, const fs::path& newer) {
  std::error_code error;
  if (!fs::is_directory(older, error)) return {{older, newer}};
  std::vector<std::pair<fs::path, fs::path>> pairs;
  for (const char* name : {"corpus.schema.json", "part.schema.json", "profile.schema.json"})
    pairs.emplace_back(older / name, newer / name);
  return pairs;
}

int compare_formats(const Diff_options& options) {
  std::size_t narrowings = 0, compared = 0;
  for (const auto& [older, newer] : schemas_of(options.older, options.newer)) {
    std::string why;
    const fs::path* at = &older;
    const auto old = ohmlore::read_file(older.string(), why);
    auto now = std::optional<std::string>();
    if (old) now = ohmlore::read_file((at = &newer)->string(), why);
    if (!old || !now) {
      const bool of_folder = *at != fs::path(at == &older ? options.older : options.newer);
      return complain(fmt::format("{}: cannot be read: {}{}", at->string(), why,
                                  of_folder ? "; name folders of schemas, like spec/v1" : ""));
    }
    const ohmlore::Compatibility found = ohmlore::compare_schemas(*old, *now);
    if (!found.problem.empty())
      return complain(fmt::format("{} and {}: {}", older.string(), newer.string(), found.problem));
    ++compared;
    for (const ohmlore::Narrowing& narrowing : found.narrowings)
      print(fmt::format("{}: {}: {}\n", ohmlore::printable(newer.string()),
                        ohmlore::printable(narrowing.pointer), narrowing.message));
    narrowings += found.narrowings.size();
  }
  print(fmt::format("{} schema{} compared: {}\n", compared, compared == 1 ? "" : "s",
                    narrowings == 0 ? "what the older accepts, the newer accepts"
                                    : fmt::format("{} place{} where documents that were good may be refused",
                                                  narrowings, narrowings == 1 ? "" : "s")));
  return narrowings > 0 ? 1 : 0;
}

}

void add_diff(CLI::App& app, int& status) {
  auto options = std::make_shared<Diff_options>();
  CLI::App* command = app.add_subcommand(
      "diff", "Say what changed between two documents: bands, contacts, tests, suspects, or only words");
  command->add_option("OLD", options->older, "the older file, - for standard input, or a folder of documents")
      ->type_name("")
      ->required();
  command->add_option("NEW", options->newer, "the newer file, - or folder")->type_name("")->required();
  CLI::Option* format =
      command
          ->add_option("--format", options->format,
                       "text for people (the default), markdown for a review, json for programs")
          ->type_name("FORMAT")
          ->check(one_of({"text", "markdown", "json"}));
  command
      ->add_flag("--format-compat", options->of_format,
                 "OLD and NEW are JSON Schemas of a document, or folders with those of all kinds:\n"
                 "say where the newer may refuse a document that the older accepts")
      ->excludes(format);
  command->footer(
      "In two folders, documents of one kind and id are compared, wherever they lie; corpora at one place.\n"
      "An older state from git: git show REVISION:FILE | ohmlore diff - FILE\n"
      "or of a folder: git archive REVISION FOLDER | tar -x -C OLD, then ohmlore diff OLD/FOLDER FOLDER\n"
      "Exit status: 0 no change of meaning, 1 the meaning changed, 2 the work could not be done.");
  command->callback(
      [options, &status] { status = options->of_format ? compare_formats(*options) : diff(*options); });
}
