// ohmlore explain: the page of a rule.
#include <cstdio>
#include <memory>
#include <vector>

#include <fmt/format.h>

#include "commands.h"
#include "ohmlore/exchange.h"
#include "ohmlore/lint.h"

// "Key Missing", "KEY_MISSING" and "[key-missing]" mean key-missing.
static std::string as_slug(const std::string& written) {
  std::string slug;
  for (const char c : written)
    if (c != '[' && c != ']')
      slug += c == ' ' || c == '_' ? '-' : c >= 'A' && c <= 'Z' ? static_cast<char>(c | 0x20) : c;
  return slug;
}

static int explain(const std::string& written) {
  using namespace ohmlore;
  const std::string slug = as_slug(written);
  if (const Rule_entry* entry = find_rule(slug)) {
    fmt::print("{}", entry->page);
    return 0;
  }
  std::vector<std::string_view> slugs, with_word;
  for (const Import_problem& problem : import_problems()) {
    if (problem.slug == slug) {
      fmt::print("# {}\n\n{}\n\nFound while another form than JSON is read; spec/v1/{} describes it.\n",
                 problem.slug, problem.summary, problem.page);
      return 0;
    }
    slugs.push_back(problem.slug);
  }
  for (const Rule_entry& entry : all_rules()) {
    slugs.push_back(entry.slug);
    if (slug.size() > 2 && entry.slug.find(slug) != std::string_view::npos) with_word.push_back(entry.slug);
  }
  std::string advice = "`ohmlore rules` lists all";
  if (const std::string_view near = nearest_word(slug, slugs); !near.empty())
    advice = fmt::format("did you mean {}?", near);
  else if (!with_word.empty())
    advice = fmt::format("there is {}", fmt::join(with_word, ", "));
  return complain(fmt::format("no rule is called `{}`; {}", written, advice));
}

void add_explain(CLI::App& app, int& status) {
  auto rule = std::make_shared<std::string>();
  CLI::App* command =
      app.add_subcommand("explain", "Print the page of a rule: what it checks, why it matters, examples");
  command->add_option("RULE", *rule, "its name, as printed in brackets behind a finding")
      ->type_name("")
      ->required();
  command->callback([rule, &status] { status = explain(*rule); });
}
