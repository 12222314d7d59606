#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule unit_missing = {
    .family = Family::unit,
    .severity = Severity::error,
    .summary = "A quantity has no unit.",
};

}
