// What is asked of a judgement.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/description.h"
#include "ohmlore/judge.h"

namespace ohmlore::test {

inline bool says(const std::vector<std::string>& texts, std::string_view part) {
  return std::any_of(texts.begin(), texts.end(),
                     [&](const std::string& text) { return text.find(part) != std::string::npos; });
}

inline Mode_verdict of_mode(const Judgement& judgement, Mode mode) {
  for (const Mode_answer& answer : judgement.modes)
    if (answer.mode == mode) return answer.verdict;
  ADD_FAILURE() << "nothing is said of " << word_of(mode);
  return Mode_verdict::not_seen;
}

inline bool fits(const Judgement& judgement, Mode mode) {
  return std::any_of(judgement.modes.begin(), judgement.modes.end(), [&](const Mode_answer& answer) {
    return answer.mode == mode && answer.verdict == Mode_verdict::fits;
  });
}

inline const Contribution* contribution(const Judgement& judgement, Contributor from) {
  const auto found = std::find_if(judgement.budget.begin(), judgement.budget.end(),
                                  [&](const Contribution& one) { return one.from == from; });
  return found == judgement.budget.end() ? nullptr : &*found;
}

}
