#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule key_duplicate = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "An object has one key twice.",
};

}
