// ohmlore new: a skeleton to fill in.
#include <cstdio>
#include <memory>

#include <fmt/format.h>

#include "commands.h"
#include "ohmlore/canonical_json.h"
#include "ohmlore/publish.h"

namespace {

struct New_options {
  std::string kind;
  std::string id;
};

int write_skeleton(const New_options& options) {
  const bool profile = options.kind == "profile";
  const std::string id = options.id.empty() ? "new-" + options.kind : options.id;
  if (!ohmlore::is_id(id))
    return complain(fmt::format(
        "`{}` is not an id: letters, digits, `_` and `-`, beginning with a letter or digit, at most 64", id));
  const std::string skeleton =
      ohmlore::skeleton(profile ? ohmlore::Document_kind::profile : ohmlore::Document_kind::part, id);
  fmt::print("{}", ohmlore::canonical_json(ohmlore::read_json(id, skeleton).document));
  fmt::print(stderr, "Save it as {0}.{1}.json, fill it in, then run: ohmlore lint {0}.{1}.json\n", id,
             options.kind);
  return 0;
}

}

void add_new(CLI::App& app, int& status) {
  auto options = std::make_shared<New_options>();
  CLI::App* command = app.add_subcommand("new", "Print a skeleton of a profile or part, to be filled in");
  command->add_option("KIND", options->kind, "profile (one control board) or part (a component type)")
      ->type_name("")
      ->required()
      ->check(one_of({"profile", "part"}));
  command
      ->add_option("ID", options->id,
                   "identity of the document and stem of its file name, for example orrinvale-ov4410")
      ->type_name("");
  command->footer("Example: ohmlore new profile orrinvale-ov4410 > orrinvale-ov4410.profile.json");
  command->callback([options, &status] { status = write_skeleton(*options); });
}
