#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by what applies the baseline.
extern const Rule baseline_expired = {
    .family = Family::corpus,
    .severity = Severity::warning,
    .summary = "The last day of an entry of the baseline is past, and what it knows is still there.",
};

}
