#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule format_newer = {
    .family = Family::shape,
    .severity = Severity::note,
    .summary = "The document is written for a newer minor version than this program knows.",
};

}
