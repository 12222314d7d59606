#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule count_out_of_limits = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "A list or map has too few or too many entries.",
};

}
