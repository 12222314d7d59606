#include <algorithm>
#include <csignal>
#include <cstdio>
#include <exception>
#include <new>
#include <string>
#include <string_view>

#include "commands.h"
#include "log.h"
#include "ohmlore/version.h"

namespace {

struct Command {
  std::string_view name;
  void (*add)(CLI::App& app, int& status);
};
constexpr Command commands[] = {
    {"lint", add_lint},       {"merge", add_merge},   {"find", add_find},           {"judge", add_judge},
    {"plan", add_plan},       {"sheet", add_sheet},   {"normalise", add_normalise}, {"upgrade", add_upgrade},
    {"convert", add_convert}, {"diff", add_diff},     {"rules", add_rules},         {"explain", add_explain},
    {"new", add_new},         {"schema", add_schema}, {"curve", add_curve},         {"fit", add_fit},
    {"serve", add_serve}};

// A quarter of a short run would go into describing commands that nobody asked for; help and a word that is
// none of them need all.
void add_commands(CLI::App& app, std::string_view first_word, int& status) {
  const auto named = [&](const Command& command) { return command.name == first_word; };
  const bool one = std::any_of(std::begin(commands), std::end(commands), named);
  for (const Command& command : commands)
    if (!one || named(command)) command.add(app, status);
}

}

int main(int argc, char** argv) {
  std::signal(SIGXFSZ, SIG_IGN); // writing more than `ulimit -f` allows fails as on a full disk does
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
  add_commands(app, argc > 1 ? argv[1] : "", status);
  for (CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; })) {
    command->group("Commands");
    for (CLI::Option* option : command->get_options())
      if (option->nonpositional()) option->check(not_empty());
  }
  app.footer(
      "`ohmlore COMMAND --help` says more. Exit status: 0 done, 1 findings, 2 the work could not be done.");
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (error.get_exit_code() != 0) {
      std::fprintf(stderr, "ohmlore: %s\n", for_log(usage_problem(app, error)).c_str());
      return 2;
    }
    app.exit(error); // prints help or version
  } catch (const std::bad_alloc&) {
    std::fputs(
        "ohmlore: there is not enough memory for this: give the program more, or less to read at once\n",
        stderr);
    return 2;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "ohmlore: %s\n", error.what());
    return 2;
  }
  if (std::ferror(stdin) != 0) {
    std::fputs("ohmlore: standard input could not be read to its end\n", stderr);
    return 2;
  }
  if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0) {
    std::fputs("ohmlore: the output could not be written\n", stderr);
    return 2;
  }
  return status;
}
