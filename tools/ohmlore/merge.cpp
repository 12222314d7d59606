// ohmlore merge: the verdict on all shards of a run.
#include <memory>

#include <fmt/format.h>

#include "commands.h"
#include "gate.h"
#include "ohmlore/corpus.h"

namespace {

struct Merge_options {
  ohmlore::Lint_request request;
  Showing showing;
  std::vector<std::string> shards;
};

int merge(Merge_options& options) {
  std::vector<ohmlore::Shard_file> shards;
  int status = 0;
  for (const std::string& file : options.shards) {
    std::string why;
    auto text = ohmlore::read_file(file, why, ohmlore::any_size);
    if (!text)
      status = complain(fmt::format("{}: cannot be read: {}", file, why));
    else
      shards.push_back({file, std::move(*text)});
  }
  if (status != 0) return status;
  ohmlore::Lint_run run = ohmlore::merge_shards(shards, options.request);
  if (run.files_read == 0 && run.troubles.empty()) run.troubles.emplace_back(nothing_read);
  std::vector<std::string> inputs = options.shards;
  if (options.request.baseline) inputs.push_back(*options.request.baseline);
  return show(run, options.showing, std::move(inputs));
}

}

void add_merge(CLI::App& app, int& status) {
  auto options = std::make_shared<Merge_options>();
  CLI::App* command =
      app.add_subcommand("merge", "Join what the shards of a lint found: findings and reports as of one run");
  command
      ->add_option("SHARD", options->shards,
                   "the files that `ohmlore lint --shard N/OF --report shard=FILE` wrote, all of them")
      ->type_name("")
      ->required();
  add_showing(*command, options->showing);
  command
      ->add_option("--baseline", options->request.baseline,
                   "findings that this file knows do not count; new ones do")
      ->type_name("FILE");
  command->add_flag("--no-waivers", options->request.options.no_waivers,
                    "for a gate before documents that are not trusted: their waivers silence nothing");
  command->footer(
      "Run it in the folder that the shards were run in: what is shown is, to the byte, what one\n"
      "`ohmlore lint` of all documents shows. Exit status: 0 nothing at or above the failing level,\n"
      "1 findings, 2 the work could not be done: a shard is missing, torn, or of another run.");
  command->callback([options, &status] {
    check_showing(options->showing, options->request);
    status = merge(*options);
  });
}
