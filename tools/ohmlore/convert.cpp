// ohmlore convert: documents in another form.
#include <cstdio>
#include <map>
#include <memory>

#include "commands.h"
#include "ohmlore/convert.h"
#include "ohmlore/report.h"

namespace {

using ohmlore::Document_form;

struct Options {
  ohmlore::Convert_request request;
  std::string from = "json", to;
};

int convert(Options& options) {
  static const std::map<std::string, Document_form> forms = {{"json", Document_form::json},
                                                             {"xml", Document_form::xml}};
  ohmlore::Convert_request& request = options.request;
  request.from = forms.at(options.from);
  request.to = forms.at(options.to);
  for (const std::string& path : request.paths)
    if (path == "-" && request.standard_input.empty())
      request.standard_input = all_of_stdin(ohmlore::most_xml_bytes);
  // main() looks whether all was written.
  request.print = [](std::string_view text) { std::fwrite(text.data(), 1, text.size(), stdout); };

  const ohmlore::Convert_run run = ohmlore::convert(request);
  bool failed = false;
  for (const ohmlore::Finding& finding : run.findings) {
    std::fputs(ohmlore::text_report(finding, false).c_str(), stderr);
    failed = true;
  }
  for (const std::string& trouble : run.troubles)
    std::fprintf(stderr, "ohmlore: %s\n", ohmlore::printable(trouble).c_str());
  if (!run.troubles.empty()) return 2;
  return failed ? 1 : 0;
}

}

void add_convert(CLI::App& app, int& status) {
  auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(
      "convert", "Write documents in another form: XML for programs that read it, and back");
  command->add_option("PATH", options->request.paths, "files, folders, or - for standard input")
      ->type_name("")
      ->required();
  command->add_option("--to", options->to, "the form to write: json or xml")
      ->type_name("FORM")
      ->required()
      ->check(one_of({"json", "xml"}));
  command->add_option("--from", options->from, "the form of what is read: json (the default) or xml")
      ->type_name("FORM")
      ->check(one_of({"json", "xml"}));
  command
      ->add_option("-o,--output", options->request.folder,
                   "the folder to write to; each document keeps its path below the folder\n"
                   "that was named. Without it, one document is printed")
      ->type_name("FOLDER");
  command->footer(
      "What has an error is not written. Findings go to stderr.\n"
      "Exit status: 0 all was written, 1 errors or warnings in what was read, 2 the work could not be done.");
  command->callback([options, &status] { status = convert(*options); });
}
