#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule byte_order_mark = {
    .family = Family::shape,
    .severity = Severity::warning,
    .summary = "The file begins with a byte order mark.",
};

}
