#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule nesting_too_deep = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "Brackets and braces are nested deeper than a document may have them.",
};

}
