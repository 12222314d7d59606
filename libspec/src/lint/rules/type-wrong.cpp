#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule type_wrong = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "A value is of another type than its key needs.",
};

}
