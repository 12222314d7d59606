// ohmlore normalise: documents in their canonical form.
#include <cstdio>
#include <map>
#include <memory>

#include "commands.h"
#include "ohmlore/corpus.h"
#include "ohmlore/report.h"

namespace {

using ohmlore::Normalise_mode;
using ohmlore::Prefixes;

struct Options {
  ohmlore::Normalise_request request;
  std::string units;
  bool check = false, write = false;
};

void complain(const std::string& trouble) {
  std::fprintf(stderr, "ohmlore: %s\n", ohmlore::printable(trouble).c_str());
}

int normalise(Options& options) {
  ohmlore::Normalise_request& request = options.request;
  request.mode = options.check   ? Normalise_mode::check
                 : options.write ? Normalise_mode::write
                                 : Normalise_mode::print;
  if (request.paths.empty()) {
    if (request.mode == Normalise_mode::print) throw CLI::RequiredError("PATH");
    request.paths = {"."};
  }
  for (const std::string& path : request.paths)
    if (path == "-" && request.standard_input.empty())
      request.standard_input = all_of_stdin(ohmlore::most_bytes);
  static const std::map<std::string, Prefixes> prefixes = {
      {"", Prefixes::as_written}, {"si", Prefixes::si}, {"engineering", Prefixes::engineering}};
  request.prefixes = prefixes.at(options.units);

  const ohmlore::Normalise_run run = ohmlore::normalise_paths(request);
  std::fwrite(run.text.data(), 1, run.text.size(), stdout); // main() looks whether all was written
  if (request.mode != Normalise_mode::print)
    for (const std::string& file : run.changed) std::printf("%s\n", ohmlore::printable(file).c_str());
  std::fflush(stdout);
  for (const ohmlore::Finding& finding : run.findings)
    std::fputs(ohmlore::text_report(finding).c_str(), stderr);
  for (const std::string& trouble : run.troubles) complain(trouble);
  if (!run.troubles.empty()) return 2;
  const bool would_change = request.mode == Normalise_mode::check && !run.changed.empty();
  return would_change || !run.findings.empty() ? 1 : 0;
}

}

void add_normalise(CLI::App& app, int& status) {
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(
      "normalise",
      "Write documents in their canonical form: units, order of keys, layout; no meaning changes");
  command
      ->add_option("PATH", options->request.paths,
                   "one file, or - for standard input; with --check or --write also several, and\n"
                   "folders (without one, the folder you are in)")
      ->type_name("");
  CLI::Option* check =
      command->add_flag("--check", options->check, "list the files that would change, and change nothing");
  command->add_flag("--write", options->write, "rewrite the files, and list those that changed")
      ->excludes(check);
  command
      ->add_option("--units", options->units,
                   "si: no prefixes; engineering: one to three digits before the point. A\n"
                   "quantity whose written digits do not reach that far keeps its prefix")
      ->type_name("STYLE")
      ->check(one_of({"si", "engineering"}));
  command->footer("The form is described in format.md. A file with errors is left alone; they go to stderr.\n"
                  "Exit status: 0 done, 1 errors, or with --check files that would change, 2 the work could\n"
                  "not be done.");
  command->callback([options, &status] { status = normalise(*options); });
}
