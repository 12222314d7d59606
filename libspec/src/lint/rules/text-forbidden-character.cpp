#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule text_forbidden_character = {
    .family = Family::shape,
    .severity = Severity::error,
    .summary = "A text holds a character that documents do not carry.",
};

}
