#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule text_too_long = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "A text is longer than a text may be.",
};

}
