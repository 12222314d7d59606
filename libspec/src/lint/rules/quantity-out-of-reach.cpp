#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule quantity_out_of_reach = {
    .family = Family::unit,
    .severity = Severity::error,
    .summary = "A quantity lies beyond what any part can have.",
};

}
