#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule word_unknown = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "A text is not one of the words that its key knows.",
};

}
