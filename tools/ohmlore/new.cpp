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
  using ohmlore::Document_kind;
  const Document_kind kind = ohmlore::enumerator_of<Document_kind>(options.kind).value();
  const bool is_corpus = kind == Document_kind::corpus;
  if (is_corpus && !options.id.empty())
    return complain(fmt::format("a corpus has no id; leave `{}` out", options.id));
  const std::string id = options.id.empty() ? "new-" + options.kind : options.id;
  if (!ohmlore::is_id(id))
    return complain(fmt::format(
        "`{}` is not an id: letters, digits, `_` and `-`, beginning with a letter or digit, at most 64", id));
  const std::string skeleton = ohmlore::skeleton(kind, id);
  fmt::print("{}", ohmlore::canonical_json(ohmlore::read_json(id, skeleton).document));
  const bool is_part = kind == Document_kind::part;
  fmt::print(stderr, "Save it as {0}{1}, fill it in, then run: ohmlore lint {0}\n",
             is_corpus ? "corpus.json"
                       : fmt::format("{}{}.{}.json", is_part ? "parts/" : "", id, options.kind),
             is_corpus ? " in the folder that holds all profiles and parts"
             : is_part ? " beside corpus.json"
                       : "");
  if (is_corpus) fmt::print(stderr, "Then begin a profile below it: ohmlore new profile ID\n");
  return 0;
}

}

void add_new(CLI::App& app, int& status) {
  auto options = std::make_shared<New_options>();
  CLI::App* command =
      app.add_subcommand("new", "Print a skeleton of a profile, part or corpus, to be filled in");
  command
      ->add_option("KIND", options->kind,
                   "profile (one control board), part (a component type) or corpus (their root)")
      ->type_name("")
      ->required()
      ->check(one_of({"profile", "part", "corpus"}));
  command
      ->add_option("ID", options->id,
                   "identity of a profile or part and stem of its file name, for example\norrinvale-ov4410")
      ->type_name("");
  command->footer("Example: ohmlore new profile orrinvale-ov4410 > orrinvale-ov4410.profile.json");
  command->callback([options, &status] { status = write_skeleton(*options); });
}
