#include "rewrite.h"

#include <cstdio>

using ohmlore::Rewrite_mode;

void add_rewrite_options(CLI::App& command, Rewrite_options& options) {
  command
      .add_option("PATH", options.request.paths,
                  "one file, or - for standard input; with --check or --write also several, and\n"
                  "folders (without one, the folder you are in)")
      ->type_name("");
  CLI::Option* check =
      command.add_flag("--check", options.check, "list the files that would change, and change nothing");
  command.add_flag("--write", options.write, "rewrite the files, and list those that changed")
      ->excludes(check);
}

const ohmlore::Rewrite_request& rewrite_request(Rewrite_options& options) {
  ohmlore::Rewrite_request& request = options.request;
  request.mode = options.check   ? Rewrite_mode::check
                 : options.write ? Rewrite_mode::write
                                 : Rewrite_mode::print;
  if (request.paths.empty()) {
    if (request.mode == Rewrite_mode::print) throw CLI::RequiredError("PATH");
    request.paths = {"."};
  }
  read_stdin_of(request, ohmlore::most_bytes);
  return request;
}

int print_rewrite(const ohmlore::Rewrite_request& request, const ohmlore::Rewrite_run& run) {
  print(run.text);
  if (request.mode != Rewrite_mode::print)
    for (const std::string& file : run.changed) std::printf("%s\n", ohmlore::printable(file).c_str());
  std::fflush(stdout);
  complain(run.findings);
  for (const std::string& trouble : run.troubles) complain(trouble);
  if (!run.troubles.empty()) return 2;
  const bool would_change = request.mode == Rewrite_mode::check && !run.changed.empty();
  return would_change || !run.findings.empty() ? 1 : 0;
}
