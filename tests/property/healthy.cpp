// No error is ever false: 2000 healthy profiles, made from physics and from the honest oddities of the trade,
// linted with every rule as one corpus. Warnings may be wrong now and then: at most 1 in 100 profiles.
#include "healthy_profile.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>

#include "ohmlore/lint.h"
#include "ohmlore/report.h"

namespace ohmlore {

constexpr int profiles = 2000;

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

  std::map<std::string_view, int> warnings, notes;
  int shown = 0;
  for (const Finding& finding : findings) {
    if (finding.severity == Severity::note) ++notes[finding.rule];
    if (finding.severity < Severity::warning) continue;
    if (finding.severity == Severity::warning && ++warnings[finding.rule] > 2) continue;
    if (++shown <= 40) std::fputs(text_report(finding).c_str(), stdout);
    EXPECT_NE(finding.severity, Severity::error);
  }
  int all = 0;
  for (const auto& [rule, count] : warnings) {
    fmt::print("{} warnings of {} in {} profiles\n", count, rule, profiles);
    all += count;
  }
  for (const auto& [rule, count] : notes) fmt::print("{} notes of {}\n", count, rule);
  EXPECT_LE(all, profiles / 100);
}

}
