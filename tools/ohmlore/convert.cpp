// ohmlore convert: documents in another form.
#include <cstdio>
#include <map>
#include <memory>

#include <fmt/format.h>

#include "commands.h"
#include "ohmlore/convert.h"

namespace {

using ohmlore::Document_form;

struct Convert_options {
  ohmlore::Convert_request request;
  std::string from = "json", to, delimiter;
};

int convert(Convert_options& options) {
  static const std::map<std::string, Document_form> forms = {{"json", Document_form::json},
                                                             {"jsonl", Document_form::jsonl},
                                                             {"xml", Document_form::xml},
                                                             {"csv", Document_form::csv}};
  static const std::map<std::string, char> delimiters = {
      {"", ','}, {"comma", ','}, {"semicolon", ';'}, {"tab", '\t'}};
  ohmlore::Convert_request& request = options.request;
  request.from = forms.at(options.from);
  request.to = forms.at(options.to);
  const auto belongs_to = [](bool given, const char* option, Document_form to, Document_form form,
                             const char* word) {
    if (given && to != form)
      throw CLI::ValidationError(option, fmt::format("has a meaning with --to {} alone", word));
  };
  belongs_to(request.csv.excel, "--excel", request.to, Document_form::csv, "csv");
  belongs_to(!options.delimiter.empty(), "--delimiter", request.to, Document_form::csv, "csv");
  belongs_to(request.root.has_value(), "--root", request.to, Document_form::jsonl, "jsonl");
  if (request.output == "-") request.output.clear();
  request.csv.delimiter = delimiters.at(options.delimiter);
  read_stdin_of(request, ohmlore::most_xml_bytes);
  // main() looks whether all was written.
  request.print = [](std::string_view text) { std::fwrite(text.data(), 1, text.size(), stdout); };

  const ohmlore::Convert_run run = ohmlore::convert(request);
  complain(run.findings);
  for (const std::string& trouble : run.troubles) complain(trouble);
  if (!run.troubles.empty()) return 2;
  return run.findings.empty() ? 0 : 1;
}

}

void add_convert(CLI::App& app, int& status) {
  auto options = std::make_shared<Convert_options>();
  CLI::App* command =
      app.add_subcommand("convert", "Write documents as XML, CSV or JSON lines for other programs, and back");
  command
      ->add_option("PATH", options->request.paths,
                   "files, folders, or - for standard input; of csv, folders of tables")
      ->type_name("")
      ->required();
  command->add_option("--to", options->to, "the form to write: json, jsonl, xml or csv")
      ->type_name("FORM")
      ->required()
      ->check(one_of({"json", "jsonl", "xml", "csv"}));
  command->add_option("--from", options->from, "the form of what is read: json (the default), xml or csv")
      ->type_name("FORM")
      ->check(one_of({"json", "xml", "csv"}));
  command
      ->add_option("-o,--output", options->request.output,
                   "where to write: of json and xml a folder, in which each document keeps\n"
                   "its path below the folder that was named; of csv the folder of tables;\n"
                   "of jsonl the file. Without it or with -, one document or the lines are printed")
      ->type_name("PLACE");
  command->add_flag("--excel", options->request.csv.excel,
                    "csv for spreadsheets: with a byte order mark, and an apostrophe before\n"
                    "text that they would take for a number or a date");
  command->add_option("--delimiter", options->delimiter, "of csv: comma (the default), semicolon or tab")
      ->type_name("NAME")
      ->check(one_of({"comma", "semicolon", "tab"}));
  command
      ->add_option("--root", options->request.root,
                   "the folder of the corpus.json whose parts jsonl lays beneath components;\n"
                   "without it, the nearest at or above each file")
      ->type_name("FOLDER");
  command->footer("What has errors of form or unit is not written. Findings go to stderr.\n"
                  "Exit status: 0 all was written, 1 errors or warnings in what was read, 2 the work could "
                  "not be done.");
  command->callback([options, &status] { status = convert(*options); });
}
