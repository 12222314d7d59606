#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule digits_too_many = {
    .family = Family::unit,
    .severity = Severity::error,
    .summary = "A number has more digits than are read exactly.",
};

}
