#include "sheet/catalogue.h"

#include <algorithm>

#include "job/curve_notes.h"
#include "lint/colours.h"
#include "sheet/words.h"

namespace ohmlore {
namespace {

using sheet::Catalogue, sheet::Word_key;

// clang-format off
#define OHMLORE_FIRST(list, word, ...) {list, word},
constexpr Word_key keys[] = {OHMLORE_SHEET_WORDS(OHMLORE_FIRST)};
constexpr std::size_t word_count = std::size(keys);
using Words = std::array<std::string_view, word_count>;

#define OHMLORE_ENGLISH(key, english, german) english,
#define OHMLORE_GERMAN(key, english, german) german,
#define OHMLORE_ENGLISH_WORD(list, word, english, german) english,
#define OHMLORE_GERMAN_WORD(list, word, english, german) german,
// clang-format on

constexpr Words german_words = {OHMLORE_SHEET_WORDS(OHMLORE_GERMAN_WORD)};

Words english() {
  Words words = {OHMLORE_SHEET_WORDS(OHMLORE_ENGLISH_WORD)};
  // What stands in English elsewhere is taken from there.
  for (std::size_t i = 0; i < word_count; ++i) {
    for (const Caution& caution : cautions())
      if (keys[i].list == "caution" && keys[i].word == caution.id) words[i] = caution.text;
    for (const rules::Colour& colour : rules::colours)
      if (keys[i].list == "colour" && keys[i].word == colour.code) words[i] = colour.name;
    for (const Curve_sentence& sentence : curve_sentences)
      if (keys[i].list == "curve_note" && keys[i].word == sentence.id) words[i] = sentence.text;
  }
  return words;
}

constexpr Language_name names[] = {{Language::english, "en", "English"}, {Language::german, "de", "Deutsch"}};

}

std::span<const Language_name> languages() { return names; }

namespace sheet {

std::span<const Word_key> word_keys() { return keys; }

std::string_view Catalogue::word(std::string_view list, std::string_view word) const {
  for (std::size_t i = 0; i < words.size(); ++i)
    if (keys[i].list == list && keys[i].word == word) return words[i];
  return word;
}

const Catalogue& catalogue(Language language) {
  static const Words english_words = english();
  static const Catalogue in_english = {"en", {OHMLORE_PHRASES(OHMLORE_ENGLISH)}, english_words};
  static const Catalogue in_german = {"de", {OHMLORE_PHRASES(OHMLORE_GERMAN)}, german_words};
  return language == Language::german ? in_german : in_english;
}

}
}
