#include <cstdio>
#include <exception>
#include <string>

#include "commands.h"
#include "log.h"
#include "ohmlore/version.h"

int main(int argc, char** argv) {
  CLI::App app{"Ohmlore: component test specs of heating appliances, written once and checked by machine.",
               "ohmlore"};
  app.set_version_flag("--version", std::string("ohmlore ") + std::string(ohmlore::program_version),
                       "print the version");
  app.set_help_flag("-h,--help", "print this text");
  app.get_formatter()->column_width(24);
  app.get_formatter()->label("SUBCOMMAND", "COMMAND …");
  app.get_formatter()->label("Positionals", "Arguments");
  app.get_formatter()->label("REQUIRED", "");
  app.get_formatter()->label("Excludes", "(not with)");
  app.require_subcommand(1);
  int status = 0;
  for (const auto add :
       {add_lint, add_merge, add_find, add_judge, add_plan, add_sheet, add_normalise, add_upgrade,
        add_convert, add_diff, add_rules, add_explain, add_new, add_schema, add_curve, add_fit, add_serve})
    add(app, status);
  for (CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
    command->group("Commands");
  app.footer(
      "`ohmlore COMMAND --help` says more. Exit status: 0 done, 1 findings, 2 the work could not be done.");
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (error.get_exit_code() == 0) return app.exit(error); // help and version
    std::fprintf(stderr, "ohmlore: %s\n", for_log(usage_problem(app, error)).c_str());
    return 2;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "ohmlore: %s\n", error.what());
    return 2;
  }
  if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0) {
    std::fputs("ohmlore: the output could not be written\n", stderr);
    return 2;
  }
  return status;
}
