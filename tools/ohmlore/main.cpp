#include <cstdio>
#include <exception>

#include "commands.h"
#include "ohmlore/version.h"

int main(int argc, char** argv) {
  CLI::App app{"Ohmlore: component test specs of heating appliances, written once and checked by machine"};
  app.set_version_flag("--version", std::string("ohmlore ") + std::string(ohmlore::program_version));
  app.require_subcommand(1);
  int status = 0;
  add_lint(app, status);
  add_rules(app, status);
  add_new(app, status);
  add_schema(app, status);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? 0 : 2; // help and version are successes
  } catch (const std::exception& error) {
    std::fprintf(stderr, "ohmlore: %s\n", error.what());
    return 2;
  }
  return status;
}
