// No error is ever false: 10,000 healthy profiles, made from physics and from the honest oddities of the
// trade, linted with every rule as one corpus. Warnings may be wrong now and then: at most 1 in 100 profiles.
#include "healthy_profile.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>

#include "ohmlore/lint.h"
#include "ohmlore/report.h"
#include "support/cases.h"

namespace ohmlore {

constexpr int profiles = test::cases(10000);

TEST(Healthy, profiles_have_no_errors_and_hardly_a_warning) {
  Parts parts;
  std::vector<Linted> linted;
  std::vector<Fact> facts;
  const Read_result corpus = read_json("corpus.json", test::healthy_corpus());
  ASSERT_TRUE(corpus.findings.empty());
  const Surroundings surroundings{corpus.document.corpus(), &parts};
  const auto lint = [&](const test::Named_text& document) {
    linted.push_back(lint_document(read_json(document.name, document.text), surroundings));
    std::move(linted.back().facts.begin(), linted.back().facts.end(), std::back_inserter(facts));
    linted.back().facts.clear();
  };
  for (const test::Named_text& part : test::healthy_parts())
    parts.add(read_json(part.name, part.text).document);
  for (const test::Named_text& part : test::healthy_parts()) lint(part);
  for (int number = 1; number <= profiles; ++number) lint(test::healthy_profile(number));
  const auto findings = settle(std::move(linted), judge_facts(std::move(facts)), surroundings.corpus,
                               Lint_options{"2026-01-01"});

  // By rule: how many findings of each severity, all of them false but for the notes.
  std::map<std::string_view, std::map<Severity, int>> said;
  std::map<Severity, int> all;
  int shown = 0;
  for (const Finding& finding : findings) {
    const int count = ++said[finding.rule][finding.severity];
    ++all[finding.severity];
    if (finding.severity == Severity::error || (finding.severity == Severity::warning && count <= 2))
      if (++shown <= 40) std::fputs(text_report(finding).c_str(), stdout);
  }
  const auto line = [](std::string_view rule, std::map<Severity, int>& counts) {
    fmt::print("{:28} {:7} {:9} {:7}\n", rule, counts[Severity::error], counts[Severity::warning],
               counts[Severity::note]);
  };
  fmt::print("in {} healthy profiles:          errors  warnings   notes\n", profiles);
  for (auto& [rule, counts] : said) line(rule, counts);
  line("all", all);
  EXPECT_EQ(all[Severity::error], 0);
  EXPECT_LE(all[Severity::warning], profiles / 100);
}

}
