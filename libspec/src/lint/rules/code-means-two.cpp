#include <algorithm>
#include <set>

#include "lint/facts.h"

namespace ohmlore::rules {
namespace {

// How a code is shown, so that two faults can show the same.
std::string shown(const Display& display) {
  if (!display.kind) return {};
  switch (*display.kind) {
  case Display_kind::text: return display.text ? packed({"text", *display.text}) : std::string();
  case Display_kind::subcode:
    return display.text && display.subcode ? packed({"subcode", *display.text, *display.subcode})
                                           : std::string();
  case Display_kind::blink:
    return display.pattern ? packed({"blink", folded(*display.lamp), folded(*display.pattern)})
                           : std::string();
  }
  return {};
}

std::string name_of(const Display& display) {
  switch (*display.kind) {
  case Display_kind::text: return quoted(*display.text);
  case Display_kind::subcode:
    return fmt::format("{} with {}", quoted(*display.text), quoted(*display.subcode));
  case Display_kind::blink: return quoted(*display.pattern);
  }
  return {};
}

void collect(const Subject& subject, Fact_sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  const std::string board = board_of(subject.document, *profile);
  if (board.empty()) return;
  const Appliance& appliance = profile->appliance;
  const std::string issues = packed_list(appliance.controller.issues), models = packed_list(appliance.models),
                    of_board = packed_list(appliance.controller.software);
  each_fault(subject, [&](Text, const Fault& fault) {
    const std::string code = shown(fault.display);
    if (code.empty() || !fault.meaning) return;
    sink.add(
        fault.meaning.node, board + code,
        packed({*fault.meaning, issues, fault.when.software ? packed_list(fault.when.software) : of_board,
                packed_list(fault.when.models), models}),
        fmt::format("{} of board {}", name_of(fault.display), quoted(*appliance.controller.part)));
  });
}

// Words that carry the meaning: three letters or more, without the ending of the plural.
std::set<std::string> words_of(std::string_view meaning) {
  static constexpr std::string_view empty_words[] = {"the",   "and",   "for",     "not",  "out",
                                                     "too",   "has",   "was",     "with", "from",
                                                     "fault", "error", "failure", "code"};
  std::set<std::string> words;
  std::string word;
  for (const char c : folded(meaning) + ' ') {
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80) {
      word += c;
      continue;
    }
    if (word.ends_with('s')) word.pop_back();
    if (word.size() >= 3 &&
        std::find(std::begin(empty_words), std::end(empty_words), word) == std::end(empty_words))
      words.insert(word);
    word.clear();
  }
  return words;
}

bool same_conditions(std::span<const std::string_view> a, std::span<const std::string_view> b) {
  if (!may_share_item(a[1], b[1]) || !may_share_item(a[2], b[2])) return false;
  if (a[3].empty() && b[3].empty()) return true; // said of the board, whatever carries it
  return share_item(a[3].empty() ? a[4] : a[3], b[3].empty() ? b[4] : b[3]);
}

void judge(std::span<const Fact> facts, Severity severity, std::vector<Finding>& findings) {
  for (std::size_t i = 1; i < facts.size(); ++i)
    for (std::size_t k = 0; k < i; ++k) {
      const auto here = unpacked(facts[i].value), there = unpacked(facts[k].value);
      if (facts[i].file == facts[k].file || folded(here[0]) == folded(there[0]) ||
          !same_conditions(here, there))
        continue;
      const auto mine = words_of(here[0]), theirs = words_of(there[0]);
      const bool common =
          std::any_of(mine.begin(), mine.end(), [&](const auto& w) { return theirs.count(w) > 0; });
      const std::string meanings = fmt::format("{} means {} here and {} in another profile", facts[i].text,
                                               quoted(here[0]), quoted(there[0]));
      findings.push_back(
          common ? finding_of(facts[i], Severity::note, meanings + "; word it in one way")
                 : finding_of(facts[i], severity,
                              meanings +
                                  "; correct one, or say in `when` for which models or software it holds"));
      findings.back().related.push_back(related_of(facts[k], "the other meaning"));
      break;
    }
}

}

extern const Rule code_means_two = {
    .family = Family::corpus,
    .severity = Severity::warning,
    .summary = "One code of a board has two meanings in two profiles.",
    .collect = collect,
    .judge = judge,
};

}
