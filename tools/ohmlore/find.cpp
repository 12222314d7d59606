// ohmlore find: which profiles of a corpus hold some words.
#include <cstdio>
#include <memory>

#include "commands.h"
#include "ohmlore/find.h"

namespace {

struct Find_options {
  ohmlore::Find_request request;
  std::size_t most = 10;
  std::string format = "text";
};

int find(const Find_options& options) {
  using namespace ohmlore;
  const Find_run run = find_paths(options.request);
  if (run.profiles > 0) {
    print(options.format == "json" ? json_report(run, options.most) : text_report(run, options.most));
    std::fflush(stdout);
  }
  for (const std::string& trouble : run.troubles) complain(trouble);
  if (!run.troubles.empty()) return 2;
  return run.found.empty() ? 1 : 0;
}

}

void add_find(CLI::App& app, int& status) {
  auto options = std::make_shared<Find_options>();
  CLI::App* command = app.add_subcommand(
      "find", "Find profiles by maker, model, board, code, spare number or any other word");
  command
      ->add_option("WORDS", options->request.words,
                   "what is on the appliance, its board or its display; all are looked for")
      ->type_name("")
      ->required()
      ->expected(-1);
  command
      ->add_option("--in", options->request.paths,
                   "a folder or profile to search, as often as you like; without it,\nthis folder")
      ->type_name("PATH")
      ->allow_extra_args(false); // words may follow
  command->add_option("--most", options->most, "so many profiles at most (10 unless stated); 0: all")
      ->type_name("NUMBER")
      ->check(number_within(0, 1'000'000));
  add_format(*command, options->format);
  command->footer(
      "Capital letters do not matter, nor what stands between letters and digits: \"ov4410\" "
      "finds OV-4410.\nA word of five letters or more that no profile holds is taken for a misspelt one.\n"
      "Exit status: 0 found, 1 nothing was found, 2 the work could not be done.");
  command->callback([options, &status] { status = find(*options); });
}
