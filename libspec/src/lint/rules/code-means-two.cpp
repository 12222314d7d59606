#include <algorithm>
#include <set>

#include "lint/facts.h"

namespace ohmlore::rules {
namespace {

// How a code is shown, so that two faults can show the same; false where that is not known.
bool add_shown(std::string& key, const Display& display) {
  if (!display.kind) return false;
  switch (*display.kind) {
  case Display_kind::text:
    if (!display.text) return false;
    pack(key, "text");
    pack(key, *display.text);
    return true;
  case Display_kind::subcode:
    if (!display.text || !display.subcode) return false;
    pack(key, "subcode");
    pack(key, *display.text);
    pack(key, *display.subcode);
    return true;
  case Display_kind::blink:
    if (!display.pattern) return false;
    pack(key, "blink");
    pack(key, folded(*display.lamp));
    pack(key, folded(*display.pattern));
    return true;
  }
  return false;
}

// What of a display names it for people, after the part of its board.
void add_name(std::string& text, const Display& display) {
  pack(text, display.pattern ? *display.pattern : *display.text);
  pack(text, *display.subcode);
}
std::string in_words(std::string_view text) {
  const auto fields = unpacked(text, field_end, 3);
  const std::string code =
      fields[2].empty() ? quoted(fields[1]) : fmt::format("{} with {}", quoted(fields[1]), quoted(fields[2]));
  return fmt::format("{} of board {}", code, quoted(fields[0]));
}

void collect(const Subject& subject, Fact_sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  const std::string board = board_of(subject.document, *profile);
  if (board.empty()) return;
  const Appliance& appliance = profile->appliance;
  std::string key = board, value, text;
  each_fault(subject, [&](Text, const Fault& fault) {
    key.resize(board.size());
    if (!fault.meaning || !add_shown(key, fault.display) || !sink.wants(key, {*fault.meaning})) return;
    value.clear();
    pack(value, *fault.meaning);
    pack(value, packed_list(appliance.controller.issues));
    pack(value, packed_list(fault.when.software ? fault.when.software : appliance.controller.software));
    pack(value, packed_list(fault.when.models));
    pack(value, packed_list(appliance.models));
    text.clear();
    pack(text, *appliance.controller.part);
    add_name(text, fault.display);
    sink.add(fault.meaning.node, key, value, text);
  });
}

// Words that carry the meaning: three letters or more, of which the first five tell: "overheat",
// "overheating".
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
      words.insert(word.substr(0, 5));
    word.clear();
  }
  return words;
}

// One code as a profile explains it.
struct Meaning {
  std::string_view words;
  std::string folded_words;
  std::set<std::string> telling;
  Items issues, software, own_models, models; // own: those of the code alone
};

Meaning meaning_of(const Fact& fact) {
  const auto fields = unpacked(fact.value, field_end, 5);
  return {fields[0],           folded(fields[0]),   words_of(fields[0]), items_of(fields[1]),
          items_of(fields[2]), items_of(fields[3]), items_of(fields[4])};
}

bool same_conditions(const Meaning& a, const Meaning& b) {
  if (!may_share_item(a.issues, b.issues) || !may_share_item(a.software, b.software)) return false;
  if (a.own_models.empty() && b.own_models.empty()) return true; // said of the board, whatever carries it
  return share_item(a.own_models.empty() ? a.models : a.own_models,
                    b.own_models.empty() ? b.models : b.own_models);
}

Finding contradiction_of(const Fact& fact, const Meaning& here, const Fact& other, const Meaning& there,
                         bool words_in_common, Severity severity) {
  const std::string both = fmt::format("{} means {} here and {} in another profile", in_words(fact.text),
                                       quoted(here.words), quoted(there.words));
  return contradiction(fact, other, "the other meaning", words_in_common ? Severity::note : severity,
                       both + (words_in_common
                                   ? "; word it in one way"
                                   : "; correct one, or say in `when` for which models or software it holds"),
                       here.folded_words, there.folded_words);
}

// Of one meaning one contradiction is told for all: one without a word in common, if there is any.
void judge(std::span<const Fact> facts, Severity severity, std::vector<Finding>& findings) {
  std::vector<Meaning> meanings;
  for (const Fact& fact : facts) meanings.push_back(meaning_of(fact));
  for (std::size_t i = 1; i < facts.size(); ++i) {
    const Meaning& here = meanings[i];
    std::vector<std::size_t> two, alike; // those that share no word, and those that are worded otherwise
    for (std::size_t k = 0; k < i && two.size() < most_contradictions; ++k) {
      const Meaning& there = meanings[k];
      if (here.folded_words == there.folded_words || facts[i].file == facts[k].file ||
          !same_conditions(here, there))
        continue;
      const bool shares = std::any_of(here.telling.begin(), here.telling.end(),
                                      [&](const std::string& word) { return there.telling.contains(word); });
      if (!shares)
        two.push_back(k);
      else if (alike.size() < most_contradictions)
        alike.push_back(k);
    }
    std::vector<Finding> group;
    for (const auto* others : {&two, &alike})
      for (const std::size_t k : *others)
        group.push_back(contradiction_of(facts[i], here, facts[k], meanings[k], others == &alike, severity));
    add_group(findings, std::move(group));
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
