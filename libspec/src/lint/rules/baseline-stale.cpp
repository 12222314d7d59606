#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by what applies the baseline.
extern const Rule baseline_stale = {
    .family = Family::corpus,
    .severity = Severity::warning,
    .summary = "An entry of the baseline knows more findings than there are.",
};

}
