#include "ohmlore/judge.h"

namespace ohmlore {

#define OHMLORE_WORD(name, doc) {#name, doc},
#define OHMLORE_WORDS(type, name, list)                                                                      \
  static constexpr Word type##_list[] = {list(OHMLORE_WORD)};                                                \
  constinit const Enumeration type##_words = {name, type##_list};

OHMLORE_WORDS(Conformity, "conformity", OHMLORE_CONFORMITIES)
OHMLORE_WORDS(Mode_verdict, "mode_verdict", OHMLORE_MODE_VERDICTS)
OHMLORE_WORDS(Contributor, "contributor", OHMLORE_CONTRIBUTORS)
OHMLORE_WORDS(Temperature_place, "temperature_place", OHMLORE_TEMPERATURE_PLACES)
OHMLORE_WORDS(Limit_basis, "limit_basis", OHMLORE_LIMIT_BASES)

}
