#include "model/word_lists.h"
#include "ohmlore/judge.h"

namespace ohmlore {

OHMLORE_WORDS(Conformity, "conformity", OHMLORE_CONFORMITIES)
OHMLORE_WORDS(Mode_verdict, "mode_verdict", OHMLORE_MODE_VERDICTS)
OHMLORE_WORDS(Contributor, "contributor", OHMLORE_CONTRIBUTORS)
OHMLORE_WORDS(Temperature_place, "temperature_place", OHMLORE_TEMPERATURE_PLACES)
OHMLORE_WORDS(Limit_basis, "limit_basis", OHMLORE_LIMIT_BASES)

}
