// Several documents linted as one corpus.
#pragma once

#include <gtest/gtest.h>

#include <tuple>
#include <vector>

#include "ohmlore/lint.h"

namespace ohmlore::test {

struct All_linted {
  std::vector<Linted> linted;
  std::vector<Finding> judged;
};

/// Expects the verdicts of corpus-wide rules to be those on all facts, though marks choose whose are
/// collected.
inline All_linted lint_all(std::span<const Read_result> documents, const Surroundings& surroundings) {
  All_linted all;
  std::vector<Fact> facts, chosen;
  for (const Read_result& read : documents) {
    all.linted.push_back(lint_document(read, surroundings));
    facts.insert(facts.end(), all.linted.back().facts.begin(), all.linted.back().facts.end());
  }
  all.judged = judge_facts(std::move(facts));
  const auto marked = lint_documents(documents, surroundings, all_rules(), Kept_facts::marks);
  for (const std::size_t document : contested(marked))
    for (Fact& fact : facts_of(documents[document], surroundings)) chosen.push_back(std::move(fact));
  const auto by_marks = judge_facts(std::move(chosen));
  const auto told = [](const std::vector<Finding>& findings) {
    std::vector<std::tuple<std::string, std::string, std::string, std::string>> out;
    for (const Finding& f : findings) out.emplace_back(f.file, f.rule, f.pointer, f.message);
    return out;
  };
  EXPECT_EQ(told(by_marks), told(all.judged));
  return all;
}

}
