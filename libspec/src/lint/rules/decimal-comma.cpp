#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule decimal_comma = {
    .family = Family::unit,
    .severity = Severity::error,
    .summary = "A comma stands in a number.",
};

}
