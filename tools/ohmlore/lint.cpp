// ohmlore lint: findings, and the gate.
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <map>
#include <memory>

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

std::string all_of_stdin() {
  std::string bytes;
  char block[1 << 16];
  for (std::size_t n;
       (n = std::fread(block, 1, sizeof block, stdin)) > 0 && bytes.size() <= ohmlore::most_bytes;)
    bytes.append(block, n);
  return bytes;
}

bool wants_colour() {
  const char* off = std::getenv("NO_COLOR");
  return (off == nullptr || *off == '\0') && isatty(STDOUT_FILENO) == 1;
}

bool print(const std::string& text) {
  return std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
}

struct Options {
  ohmlore::Lint_request request;
  std::string format = "text";
  std::string fail_on;
};

int lint(Options& options) {
  using ohmlore::Severity;
  if (options.request.paths.empty()) options.request.paths = {"."};
  for (const std::string& path : options.request.paths)
    if (path == "-" && options.request.standard_input.empty())
      options.request.standard_input = all_of_stdin();
  static const std::map<std::string, Severity> levels = {
      {"error", Severity::error}, {"warning", Severity::warning}, {"note", Severity::note}};
  if (!options.fail_on.empty()) options.request.fail_on = levels.at(options.fail_on);
  options.request.options.today = today();

  const ohmlore::Lint_run run = ohmlore::lint_paths(options.request);
  bool written = true;
  if (options.format == "json") {
    written = print(ohmlore::json_report(run));
  } else {
    const bool colour = wants_colour();
    for (const ohmlore::Finding& finding : run.findings)
      written = print(ohmlore::text_report(finding, colour)) && written;
    written = print(ohmlore::summary_line(run)) && written;
  }
  written = std::fflush(stdout) == 0 && written;
  for (const std::string& trouble : run.troubles)
    std::fprintf(stderr, "ohmlore: %s\n", ohmlore::printable(trouble).c_str());
  if (!written) std::fputs("ohmlore: the findings could not be written\n", stderr);
  if (run.files_read == 0) std::fputs("ohmlore: no document was read, so nothing was checked\n", stderr);
  if (!run.troubles.empty() || !written || run.files_read == 0) return 2;
  return run.failing > 0 ? 1 : 0;
}

}

void add_lint(CLI::App& app, int& status) {
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("lint", "Say what is wrong with profiles, parts and corpora");
  command->add_option("PATH", options->request.paths,
                      "files, folders, or - for standard input; this folder where none is given");
  command->add_option("--format", options->format, "text or json")->check(CLI::IsMember({"text", "json"}));
  command
      ->add_option("--fail-on", options->fail_on,
                   "least severity that fails: error, warning or note; else the corpus decides")
      ->check(CLI::IsMember({"error", "warning", "note"}));
  command->add_option("--root", options->request.root,
                      "folder of corpus.json; else the nearest above each file");
  command->footer(
      "Exit status: 0 nothing at or above the failing level, 1 findings, 2 the work could not be done.");
  command->callback([options, &status] { status = lint(*options); });
}
