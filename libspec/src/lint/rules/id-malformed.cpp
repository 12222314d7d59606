#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule id_malformed = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "An id has characters that an id may not have.",
};

}
