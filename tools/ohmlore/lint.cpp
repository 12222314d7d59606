// ohmlore lint: findings, and the gate.
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <map>
#include <memory>

#include <fmt/format.h>

#include "commands.h"
#include "ohmlore/corpus.h"
#include "ohmlore/report.h"

namespace {

std::string today() {
  const std::time_t now = std::time(nullptr);
  std::tm day{};
  localtime_r(&now, &day);
  char text[11];
  std::strftime(text, sizeof text, "%Y-%m-%d", &day);
  return text;
}

bool wants_colour() {
  const char* off = std::getenv("NO_COLOR");
  return (off == nullptr || *off == '\0') && isatty(STDOUT_FILENO) == 1;
}

// main() looks whether all was written.
void print(const std::string& text) { std::fwrite(text.data(), 1, text.size(), stdout); }

struct Options {
  ohmlore::Lint_request request;
  std::string format = "text";
  std::string fail_on;
  bool fix = false;
  bool dry_run = false;
};

constexpr const char* nothing_read = "no document was read, so nothing was checked";

// On a terminal nothing of the documents may steer it; elsewhere the bytes are for patch.
void print_diff(const std::string& diff) {
  if (isatty(STDOUT_FILENO) != 1) return print(diff);
  for (std::size_t at = 0; at < diff.size();) {
    const std::size_t end = diff.find('\n', at);
    print(ohmlore::printable(diff.substr(at, end - at)) + '\n');
    at = end + 1;
  }
}

int show_fixes(const Options& options) {
  const ohmlore::Fix_run run = ohmlore::fix_paths(options.request, false);
  for (const ohmlore::Fixed_file& file : run.files) print_diff(file.diff);
  std::fflush(stdout);
  for (const std::string& trouble : run.troubles) complain(trouble);
  if (run.files_read == 0) complain(nothing_read);
  if (!run.troubles.empty() || run.files_read == 0) return 2;
  return run.files.empty() ? 0 : 1;
}

int lint(Options& options) {
  using ohmlore::Severity;
  if (options.request.paths.empty()) options.request.paths = {"."};
  for (const std::string& path : options.request.paths)
    if (path == "-" && options.request.standard_input.empty())
      options.request.standard_input = all_of_stdin(ohmlore::most_bytes);
  static const std::map<std::string, Severity> levels = {
      {"error", Severity::error}, {"warning", Severity::warning}, {"note", Severity::note}};
  if (!options.fail_on.empty()) options.request.fail_on = levels.at(options.fail_on);
  options.request.options.today = today();

  if (options.dry_run) return show_fixes(options);
  ohmlore::Fix_run fixed;
  if (options.fix) fixed = ohmlore::fix_paths(options.request, true);

  ohmlore::Lint_run run = ohmlore::lint_paths(options.request);
  for (std::string& trouble : fixed.troubles)
    if (std::find(run.troubles.begin(), run.troubles.end(), trouble) == run.troubles.end())
      run.troubles.push_back(std::move(trouble));
  if (options.format == "json") {
    print(ohmlore::json_report(run));
  } else if (run.files_read > 0) {
    const bool colour = wants_colour();
    for (const ohmlore::Fixed_file& file : fixed.files)
      print(fmt::format("{}: {} fixed\n", ohmlore::printable(file.name), file.fixes));
    for (const ohmlore::Finding& finding : run.findings) print(ohmlore::text_report(finding, colour));
    print(ohmlore::summary_line(run));
  }
  std::fflush(stdout);
  for (const std::string& trouble : run.troubles) complain(trouble);
  if (run.files_read == 0) complain(nothing_read);
  if (!run.troubles.empty() || run.files_read == 0) return 2;
  return run.failing > 0 ? 1 : 0;
}

}

void add_lint(CLI::App& app, int& status) {
  auto options = std::make_shared<Options>();
  CLI::App* command =
      app.add_subcommand("lint", "Check profiles, parts and corpora: say what is wrong, where, and why");
  command
      ->add_option("PATH", options->request.paths,
                   "files, folders, or - for standard input; without one, the folder you are in")
      ->type_name("");
  command->add_option("--format", options->format, "text for people (the default), json for programs")
      ->type_name("FORMAT")
      ->check(one_of({"text", "json"}));
  command
      ->add_option("--fail-on", options->fail_on,
                   "error, warning or note: the least that gives exit status 1;\n"
                   "without it, what corpus.json says, else error")
      ->type_name("SEVERITY")
      ->check(one_of({"error", "warning", "note"}));
  command
      ->add_option("--root", options->request.root,
                   "the folder that holds corpus.json; without it, the nearest at or\nabove each file")
      ->type_name("FOLDER");
  CLI::Option* fix = command->add_flag(
      "--fix", options->fix, "make the fixes that are marked [--fix] in the files, then report what is left");
  command
      ->add_flag("--dry-run", options->dry_run,
                 "with --fix: change nothing, print a unified diff; exit status 1 where\nthere is one")
      ->needs(fix);
  command->footer(
      "In a folder, *.profile.json, *.part.json and corpus.json are read.\n"
      "Exit status: 0 nothing at or above the failing level, 1 findings, 2 the work could not be done.");
  command->callback([options, &status] { status = lint(*options); });
}
