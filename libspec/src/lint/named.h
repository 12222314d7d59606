// What a text names, as two people would write it: by words, whatever separates them.
#pragma once

#include <array>
#include <span>
#include <string>
#include <vector>

#include "ohmlore/resolve.h"
#include "text/small_letters.h"

namespace ohmlore::rules {

/// Small letters (ASCII) for letters, a space for what separates words.
inline constexpr auto letters_of_words = [] {
  std::array<char, 256> letters{};
  for (std::size_t i = 0; i < letters.size(); ++i) letters[i] = small_letter(static_cast<char>(i));
  for (const char c : std::string_view("_,-./;:()")) letters[static_cast<unsigned char>(c)] = ' ';
  return letters;
}();

/// " fan live " of "fan, live" and of "fan_live": small letters (ASCII), a space around each word.
inline std::string words_of(Text text) {
  std::string words(text.size() + 2, ' ');
  char* end = words.data() + 1;
  for (const char c : text) {
    *end = letters_of_words[static_cast<unsigned char>(c)];
    if (*end != ' ' || end[-1] != ' ') ++end;
  }
  if (end[-1] != ' ') *end++ = ' ';
  words.resize(static_cast<std::size_t>(end - words.data()));
  return words;
}

/// Whether words as words_of gives them, " fan live ", stand in a text, whatever separates them there.
inline bool says(Text text, Text words) {
  const auto letter = [&](std::size_t i) {
    return i < text.size() ? letters_of_words[static_cast<unsigned char>(text[i])] : ' ';
  };
  for (std::size_t begin = 0; begin <= text.size(); ++begin) {
    if (begin > 0 && letter(begin - 1) != ' ') continue; // within a word
    std::size_t same = 1;
    for (std::size_t i = begin; same < words.size() && letter(i) == words[same]; ++same, ++i)
      while (words[same] == ' ' && i + 1 < text.size() && letter(i + 1) == ' ') ++i;
    if (same == words.size()) return true;
  }
  return false;
}

/// The components by the words of their ids; of two with the same words the first.
class Components_by_words {
public:
  explicit Components_by_words(const Resolved& resolved) : components_(resolved.components) {
    std::size_t size = 0;
    for (const Resolved_component& component : components_) size += component.id.size() + 2;
    texts_.reserve(size); // and so nothing moves
    words_.reserve(components_.size());
    index_.reserve(components_.size());
    for (std::size_t i = 0; i < components_.size(); ++i) {
      const std::size_t begin = texts_.size();
      texts_ += words_of(components_[i].id);
      words_.push_back(Text(texts_).substr(begin));
      index_.add(words_[i], i);
    }
  }
  Components_by_words(const Components_by_words&) = delete;
  Components_by_words& operator=(const Components_by_words&) = delete;

  /// Those of a component.
  Text of(const Resolved_component& component) const {
    return words_[static_cast<std::size_t>(&component - components_.data())];
  }
  /// The component, or null.
  const Resolved_component* find(Text words) const {
    const std::size_t at = index_.find(words);
    return at == Id_index::npos ? nullptr : &components_[at];
  }

private:
  std::span<const Resolved_component> components_;
  std::string texts_;       ///< that all others view
  std::vector<Text> words_; ///< in the order of the components
  Id_index index_;
};

}
