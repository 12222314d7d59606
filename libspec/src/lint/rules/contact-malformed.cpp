#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule contact_malformed = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "A contact is not written as connector and pin.",
};

}
