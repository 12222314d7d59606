#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule key_unknown = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "A key is not one that its record knows.",
};

}
