#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the engine.
extern const Rule waiver_expired = {
    .family = Family::source,
    .severity = Severity::warning,
    .summary = "The last day of a waiver is past.",
};

}
