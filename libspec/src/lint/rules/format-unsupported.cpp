#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule format_unsupported = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "The document is of a format that this program does not read.",
};

}
