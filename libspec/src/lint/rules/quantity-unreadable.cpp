#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule quantity_unreadable = {
    .family = Family::unit,
    .severity = Severity::error,
    .summary = "A quantity cannot be read.",
};

}
