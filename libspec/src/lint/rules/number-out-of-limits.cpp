#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule number_out_of_limits = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "A number lies outside the limits of its key.",
};

}
