#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule unit_of_other_dimension = {
    .family = Family::unit,
    .severity = Severity::error,
    .summary = "A unit measures something else than its key states.",
};

}
