#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule look_alike_refused = {
    .family = Family::unit,
    .severity = Severity::error,
    .summary = "A character only looks like the one that is meant.",
};

}
