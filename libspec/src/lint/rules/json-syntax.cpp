#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule json_syntax = {
    .family = Family::json,
    .severity = Severity::error,
    .summary = "The text is not JSON.",
};

}
