// ohmlore normalise: documents in their canonical form.
#include <map>
#include <memory>

#include "rewrite.h"

namespace {

struct Normalise_options : Rewrite_options {
  std::string units;
};

int normalise(Normalise_options& options) {
  using ohmlore::Prefixes;
  static const std::map<std::string, Prefixes> prefixes = {
      {"", Prefixes::as_written}, {"si", Prefixes::si}, {"engineering", Prefixes::engineering}};
  const ohmlore::Rewrite_request& request = rewrite_request(options);
  return print_rewrite(request, ohmlore::normalise_paths(request, prefixes.at(options.units)));
}

}

void add_normalise(CLI::App& app, int& status) {
  auto options = std::make_shared<Normalise_options>();
  CLI::App* command = app.add_subcommand(
      "normalise",
      "Write documents in their canonical form: units, order of keys, layout; no meaning changes");
  add_rewrite_options(*command, *options);
  command
      ->add_option("--units", options->units,
                   "si: no prefixes; engineering: one to three digits before the point. A\n"
                   "quantity whose written digits do not reach that far keeps its prefix")
      ->type_name("STYLE")
      ->check(one_of({"si", "engineering"}));
  command->footer("The form is described in format.md. A file with errors of form or unit is left alone; "
                  "they go to\nstderr.\n"
                  "Exit status: 0 done, 1 errors, or with --check files that would change, 2 the work could\n"
                  "not be done.");
  command->callback([options, &status] { status = normalise(*options); });
}
