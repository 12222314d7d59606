// ohmlore sheet: a profile as a page to print and to carry, or a corpus as a site of them.
#include <memory>

#include <fmt/format.h>

#include "commands.h"
#include "ohmlore/sheet.h"

namespace {

struct Sheet_options {
  ohmlore::Sheet_request request;
  std::string language = "en";
};

int sheet(Sheet_options& options) {
  if (options.request.path == "-") return complain(no_input_for_profile);
  if (options.request.output == "-") options.request.output.clear();
  for (const ohmlore::Language_name& known : ohmlore::languages())
    if (known.tag == options.language) options.request.language = known.language;
  const ohmlore::Sheet_run run = ohmlore::write_sheets(options.request);
  complain(run.findings);
  warn(run.warnings);
  for (const std::string& trouble : run.troubles) complain(trouble);
  print(run.html);
  if (!run.troubles.empty()) return 2;
  return run.findings.empty() ? 0 : 1;
}

}

void add_sheet(CLI::App& app, int& status) {
  auto options = std::make_shared<Sheet_options>();
  CLI::App* command = app.add_subcommand(
      "sheet", "Write a page to print: cautions, codes, pin-outs, readings; of a corpus a site with search");
  command
      ->add_option("PROFILE", options->request.path,
                   "the profile of a board, or a folder of profiles for a site")
      ->type_name("")
      ->required();
  command
      ->add_option("-o,--output", options->request.output,
                   "the file to write (without it or with -, the page is printed); of a site the folder")
      ->type_name("PLACE");
  std::vector<std::string> tags;
  std::string names;
  for (const ohmlore::Language_name& language : ohmlore::languages()) {
    tags.emplace_back(language.tag);
    names += fmt::format("{}{} ({})", names.empty() ? "" : ", ", language.tag, language.name);
  }
  command
      ->add_option("--language", options->language,
                   fmt::format("{}; what the profile says stays as it is", names))
      ->type_name("LANGUAGE")
      ->check(one_of(tags));
  add_root(*command, options->request.root);
  command->footer(
      "The page is one HTML file that needs nothing else. The cautions are always on it.\n"
      "Exit status: 0 all was written, 1 also, but of profiles with errors, 2 the work could not be done.");
  command->callback([options, &status] { status = sheet(*options); });
}
