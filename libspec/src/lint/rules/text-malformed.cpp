#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule text_malformed = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "A text has not the form that its key needs.",
};

}
