// ohmlore rules, ohmlore explain: what the linter knows.
#include <cstdio>
#include <memory>
#include <vector>

#include <fmt/format.h>

#include "commands.h"
#include "ohmlore/lint.h"

using namespace ohmlore;

static int list_rules(const std::string& family) {
  std::size_t width = 0;
  for (const Rule_entry& entry : all_rules()) width = std::max(width, entry.slug.size());
  std::size_t shown = 0;
  for (const Rule_entry& entry : all_rules()) {
    if (!family.empty() && name_of(entry.rule->family) != family) continue;
    ++shown;
    fmt::print("{:{}}  {:8} {:8} {}{}\n", entry.slug, width, name_of(entry.rule->family),
               word_of(entry.rule->severity), entry.rule->summary,
               entry.rule->status == Rule_status::stable ? ""
                                                         : fmt::format(" ({})", name_of(entry.rule->status)));
  }
  if (shown > 0) return 0;
  fmt::print(stderr, "ohmlore: no rule of family {}; `ohmlore rules` lists all\n", printable(family));
  return 2;
}

static int explain(const std::string& slug) {
  if (const Rule_entry* entry = find_rule(slug)) {
    fmt::print("{}", entry->page);
    return 0;
  }
  std::vector<std::string_view> slugs;
  for (const Rule_entry& entry : all_rules()) slugs.push_back(entry.slug);
  const std::string_view near = nearest_word(slug, slugs);
  fmt::print(stderr, "ohmlore: no rule is called {}; {}\n", printable(slug),
             near.empty() ? "`ohmlore rules` lists all" : fmt::format("did you mean {}?", near));
  return 2;
}

void add_rules(CLI::App& app, int& status) {
  auto family = std::make_shared<std::string>();
  CLI::App* list = app.add_subcommand("rules", "List the rules");
  list->add_option("--family", *family, "only the rules of one family");
  list->callback([family, &status] { status = list_rules(*family); });

  auto slug = std::make_shared<std::string>();
  CLI::App* page = app.add_subcommand("explain", "Print the page of a rule");
  page->add_option("RULE", *slug, "its name, as printed behind a finding")->required();
  page->callback([slug, &status] { status = explain(*slug); });
}
