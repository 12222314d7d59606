#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule key_missing = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "A record lacks a member that it needs.",
};

}
