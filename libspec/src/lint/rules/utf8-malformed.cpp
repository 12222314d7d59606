#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule utf8_malformed = {
    .family = Family::json,
    .severity = Severity::error,
    .summary = "The file is not UTF-8 text.",
};

}
