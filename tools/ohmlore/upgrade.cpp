// ohmlore upgrade: documents of an older version of the format, written for this one.
#include <cstdio>
#include <memory>

#include <fmt/format.h>

#include "log.h"
#include "rewrite.h"

namespace {

// Every file is accounted for: a run that had nothing to do says so.
std::string summary(const ohmlore::Rewrite_request& request, const ohmlore::Upgrade_run& run) {
  const auto files = [](std::size_t n) { return fmt::format("{} file{}", n, n == 1 ? "" : "s"); };
  std::string text;
  for (const auto& [name, version] : run.newer)
    text += fmt::format("{}: {}, newer than the {} that this program knows; left as it is\n",
                        ohmlore::printable(name), version, ohmlore::format_tag);
  if (run.current > 0)
    text += fmt::format("{}: {} already, nothing to upgrade\n", files(run.current), ohmlore::format_tag);
  if (!run.changed.empty())
    text += fmt::format("{}: {} to {}\n", files(run.changed.size()),
                        request.mode == ohmlore::Rewrite_mode::check ? "to be upgraded" : "upgraded",
                        ohmlore::format_tag);
  return text;
}

int upgrade(Rewrite_options& options) {
  const ohmlore::Rewrite_request& request = rewrite_request(options);
  const ohmlore::Upgrade_run run = ohmlore::upgrade_paths(request);
  const int status = print_rewrite(request, run);
  std::fputs(for_log(summary(request, run)).c_str(), stderr);
  return status;
}

}

void add_upgrade(CLI::App& app, int& status) {
  auto options = std::make_shared<Rewrite_options>();
  CLI::App* command = app.add_subcommand(
      "upgrade", "Write documents of an older version of the format anew for this one, in canonical form");
  add_rewrite_options(*command, *options);
  command->footer(fmt::format(
      "This program knows the format up to {}. A document of that version, or of a newer minor\n"
      "version, stays as it is, byte for byte; one of a newer major version is refused. A file with errors\n"
      "of form or unit is left alone. Findings, and what was done, go to stderr.\n"
      "Exit status: 0 done, or nothing to do; 1 errors, or with --check files that would change; 2 the work\n"
      "could not be done.",
      ohmlore::format_tag));
  command->callback([options, &status] { status = upgrade(*options); });
}
