#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule supplies_missing = {
    .family = Family::safety,
    .severity = Severity::error,
    .summary = "A profile names no supply to isolate.",
};

}
