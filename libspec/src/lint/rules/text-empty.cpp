#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule text_empty = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "A text is empty.",
};

}
