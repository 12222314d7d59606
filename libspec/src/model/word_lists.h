// Enumerations from the lists of words in their headers.
#pragma once

#include "ohmlore/description.h"

#define OHMLORE_WORD(name, doc) {#name, doc},
/// Defines the `Enumeration` of what OHMLORE_ENUM declared.
#define OHMLORE_WORDS(type, name, list)                                                                      \
  static constexpr Word type##_list[] = {list(OHMLORE_WORD)};                                                \
  constinit const Enumeration type##_words = {name, type##_list};
