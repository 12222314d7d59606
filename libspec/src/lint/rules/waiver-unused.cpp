#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the engine.
extern const Rule waiver_unused = {
    .family = Family::source,
    .severity = Severity::warning,
    .summary = "A waiver waives nothing.",
};

}
