#include <algorithm>
#include <charconv>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "commands.h"
#include "ohmlore/text.h"

std::string usage_problem(const CLI::App& app, const CLI::ParseError& error) {
  const auto quoted = [](const std::string& word) { return "`" + ohmlore::printable(word) + "`"; };
  // What begins as written is meant before what is only near; `--option=value` is one word.
  const auto near = [](const std::string& word, const std::vector<std::string>& known) {
    const std::string_view name = std::string_view(word).substr(0, word.find('='));
    std::vector<std::string_view> nearest;
    for (const std::string& one : known)
      if (name.size() > 2 && one.starts_with(name)) nearest.push_back(one);
    if (nearest.size() != 1)
      nearest = {ohmlore::nearest_word(name, std::vector<std::string_view>(known.begin(), known.end()))};
    return nearest.front().empty() ? std::string() : fmt::format("did you mean {}?", nearest.front());
  };
  const auto options_of = [](const CLI::App& of) {
    std::vector<std::string> options;
    for (const CLI::Option* option : of.get_options())
      if (option->nonpositional()) options.push_back(option->get_name());
    return options;
  };
  const std::vector<std::string> own = app.remaining(false), all = app.remaining(true);
  const std::vector<CLI::App*> chosen = app.get_subcommands();
  if (chosen.empty()) {
    if (own.empty()) return "name a command; `ohmlore --help` lists them";
    const bool is_option = own.front().starts_with('-');
    std::vector<std::string> known;
    if (is_option)
      known = options_of(app);
    else
      for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; }))
        known.push_back(command->get_name());
    const std::string guess = near(own.front(), known);
    return fmt::format("there is no {} {}; {}", is_option ? "option" : "command", quoted(own.front()),
                       guess.empty() ? "`ohmlore --help` lists them" : guess);
  }
  const CLI::App& command = *chosen.front();
  const std::string help = fmt::format("`ohmlore {} --help` says more", command.get_name());
  const std::string what = error.what();
  // Before what is missing: that may be what this was to be.
  const auto unknown = std::find_if(all.begin(), all.end(), [&](const std::string& word) {
    return word.size() > 1 && word.starts_with('-') &&
           command.get_option_no_throw(word.substr(0, word.find('='))) == nullptr;
  });
  if (unknown != all.end()) {
    const std::string guess = near(*unknown, options_of(command));
    return fmt::format("`ohmlore {}` has no option {}; {}", command.get_name(), quoted(*unknown),
                       guess.empty() ? help : guess);
  }
  if (dynamic_cast<const CLI::RequiredError*>(&error) != nullptr)
    if (const CLI::Option* missing = command.get_option_no_throw(what.substr(0, what.find(' '))))
      return fmt::format("`ohmlore {}` needs {}: {}", command.get_name(), missing->get_name(),
                         missing->get_description());
  if (dynamic_cast<const CLI::ValidationError*>(&error) != nullptr) return what;
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr)
    return fmt::format("`{}` needs one value; {}", what.substr(0, what.find(':')), help);
  if (dynamic_cast<const CLI::ExtrasError*>(&error) == nullptr || all.empty())
    return fmt::format("{}; {}", what, help);
  if (!own.empty())
    return fmt::format("{} stands before the command; write it after `{}`", quoted(own.front()),
                       command.get_name());
  return fmt::format("{} is one word too many for `ohmlore {}`; {}", quoted(all.front()), command.get_name(),
                     help);
}

void add_root(CLI::App& command, std::optional<std::string>& root, const std::string& what) {
  command
      .add_option("--root", root,
                  "the folder that holds corpus.json; without it, the nearest at or\nabove " + what)
      ->type_name("FOLDER");
}

CLI::Option* add_format(CLI::App& command, std::string& format) {
  return command.add_option("--format", format, "text for people (the default), json for programs")
      ->type_name("FORMAT")
      ->check(one_of({"text", "json"}));
}

CLI::Validator one_of(std::vector<std::string> words) {
  auto check = [words = std::move(words)](const std::string& given) {
    std::string list;
    for (std::size_t i = 0; i < words.size(); ++i) {
      if (words[i] == given) return std::string();
      list += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + words[i];
    }
    return fmt::format("`{}` is not known here; write {}", ohmlore::printable(given), list);
  };
  return {check, "", "one_of"};
}

CLI::Validator not_empty() {
  auto check = [](const std::string& given) {
    return given.empty() ? std::string("its value is empty; write one, or leave the option out")
                         : std::string();
  };
  return {check, "", "not_empty"};
}

CLI::Validator number_within(std::size_t first, std::size_t last) {
  auto check = [first, last](const std::string& given) {
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(given.data(), given.data() + given.size(), number);
    const bool good =
        error == std::errc() && end == given.data() + given.size() && number >= first && number <= last;
    return good ? std::string()
                : fmt::format("`{}` is not a number from {} to {}", ohmlore::printable(given), first, last);
  };
  return {check, "", "number_within"};
}
