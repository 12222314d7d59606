// The words of a sheet in one language. Whoever writes a sheet takes every word of his own from here.
#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "ohmlore/cautions.h"
#include "ohmlore/description.h"
#include "ohmlore/sheet.h"
#include "sheet/phrases.h"

namespace ohmlore::sheet {

/// Names a word: its enumeration (or "colour", "caution") and itself.
struct Word_key {
  std::string_view list, word;
};
std::span<const Word_key> word_keys();

struct Catalogue {
  std::string_view tag; ///< BCP 47
  std::array<std::string_view, phrase_count> phrases;
  std::span<const std::string_view> words; ///< in the order of word_keys()

  /// A phrase with its places filled in.
  template <class... Filling>
  std::string say(Phrase phrase, const Filling&... filling) const {
    return fmt::format(fmt::runtime(phrases[static_cast<std::size_t>(phrase)]), filling...);
  }
  /// A word; one that the catalogue does not have, as it is.
  std::string_view word(std::string_view list, std::string_view word) const;
  template <class E>
  std::string_view word(E value) const {
    return word(enumeration(std::type_identity<E>{})->name, word_of(value));
  }
};

const Catalogue& catalogue(Language language);

}
