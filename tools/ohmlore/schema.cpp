// ohmlore schema: the published schemas, and the files under spec/ that are derived from the descriptions.
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "commands.h"
#include "ohmlore/corpus.h"
#include "ohmlore/publish.h"

namespace {

struct Schema_options {
  std::string name;
  std::string folder;
};

struct Published {
  const char* name;
  const char* language; ///< beside the name, where it is not JSON Schema
  std::string (*text)();
};
constexpr Published published[] = {
    {"profile", "", [] { return ohmlore::json_schema(ohmlore::Document_kind::profile); }},
    {"part", "", [] { return ohmlore::json_schema(ohmlore::Document_kind::part); }},
    {"corpus", "", [] { return ohmlore::json_schema(ohmlore::Document_kind::corpus); }},
    {"report", "", ohmlore::report_schema},
    {"diff", "", ohmlore::diff_schema},
    {"judgement", "", ohmlore::judgement_schema},
    {"find", "", ohmlore::find_schema},
    {"fit", "", ohmlore::fit_schema},
    {"plan", "", ohmlore::plan_schema},
    {"job", "", ohmlore::job_schema},
    {"baseline", "", ohmlore::baseline_schema},
    {"xml", " (XSD)", ohmlore::xml_schema},
    {"csv", " (CSVW)", ohmlore::tables_metadata}};

std::vector<std::string> names() {
  std::vector<std::string> names;
  for (const Published& one : published) names.emplace_back(one.name);
  return names;
}

std::string names_and_languages() {
  std::vector<std::string> json, others;
  for (const Published& one : published)
    (*one.language == '\0' ? json : others).push_back(fmt::format("{}{}", one.name, one.language));
  return fmt::format("{};\n{}", fmt::join(json, ", "), fmt::join(others, " or "));
}

int print_schema(const std::string& name) {
  const auto found = std::find_if(std::begin(published), std::end(published),
                                  [&](const Published& one) { return one.name == name; });
  print(found->text());
  return 0;
}

int write_spec(const std::filesystem::path& folder) {
  std::string why;
  const std::optional<std::string> page =
      ohmlore::read_file((folder / "v1" / "format.md").string(), why, ohmlore::any_size);
  if (!page)
    return complain(fmt::format(
        "cannot read {}; name the folder spec of the source tree, whose format.md keeps its prose",
        (folder / "v1" / "format.md").string()));
  const ohmlore::Spec_files spec = ohmlore::spec_files({*page});
  for (const std::string& problem : spec.problems) complain(problem);
  if (!spec.problems.empty()) return 2;
  for (const ohmlore::Spec_file& file : spec.files) {
    const std::string path = (folder / file.path).string();
    if (ohmlore::read_file(path, why, ohmlore::any_size) == file.bytes) continue;
    if (!ohmlore::write_file(path, file.bytes, why))
      return complain(fmt::format("{} cannot be written: {}", path, why));
    fmt::print("{}\n", path);
  }
  return 0;
}

}

void add_schema(CLI::App& app, int& status) {
  auto options = std::make_shared<Schema_options>();
  CLI::App* command = app.add_subcommand(
      "schema",
      "Print a schema of the format: JSON Schema (draft-07), XML Schema (1.0), or W3C metadata of CSV");
  CLI::Option* name = command->add_option("NAME", options->name, names_and_languages())
                          ->type_name("")
                          ->check(one_of(names()));
  CLI::Option* write =
      command
          ->add_option(
              "--write-spec", options->folder,
              "write every derived file of the folder spec (the default) anew, and name those that changed")
          ->expected(0, 1)
          ->type_name("FOLDER");
  command->callback([options, name, write, &status] {
    if (*write && *name) throw CLI::ExcludesError("--write-spec", "NAME"); // ->excludes() spoils the help
    if (*write)
      status = write_spec(options->folder.empty() ? "spec" : options->folder);
    else if (*name)
      status = print_schema(options->name);
    else
      throw CLI::RequiredError("NAME");
  });
}
