// ohmlore rules: what the linter knows.
#include <algorithm>
#include <cstdio>
#include <memory>
#include <vector>

#include <fmt/format.h>

#include "commands.h"
#include "ohmlore/lint.h"

static int list_rules(const std::string& family) {
  using namespace ohmlore;
  std::vector<std::string_view> families;
  std::size_t width = 0;
  for (const Rule_entry& entry : all_rules()) {
    width = std::max(width, entry.slug.size());
    const std::string_view name = name_of(entry.rule->family);
    if (std::find(families.begin(), families.end(), name) == families.end()) families.push_back(name);
  }
  if (!family.empty() && std::find(families.begin(), families.end(), family) == families.end()) {
    std::sort(families.begin(), families.end());
    const std::string_view near = nearest_word(family, families);
    return complain(fmt::format("there is no family `{}`; {}", family,
                                near.empty() ? fmt::format("the families are {}", fmt::join(families, ", "))
                                             : fmt::format("did you mean {}?", near)));
  }
  for (const Rule_entry& entry : all_rules()) {
    if (!family.empty() && name_of(entry.rule->family) != family) continue;
    const std::string life = life_of(*entry.rule);
    fmt::print("{:{}}  {:8} {:8} {}{}\n", entry.slug, width, name_of(entry.rule->family),
               word_of(entry.rule->severity), entry.rule->summary,
               life == name_of(Rule_status::stable) ? "" : fmt::format(" ({})", life));
  }
  return 0;
}

void add_rules(CLI::App& app, int& status) {
  auto family = std::make_shared<std::string>();
  CLI::App* command =
      app.add_subcommand("rules", "List the rules of lint: name, family, severity, what is found");
  command->add_option("--family", *family, "only the rules of one family, for example pin")
      ->type_name("FAMILY");
  command->callback([family, &status] { status = list_rules(*family); });
}
