#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule file_too_large = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "The file is larger than a document may be.",
};

}
