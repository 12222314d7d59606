#include "lint/rule.h"

namespace ohmlore::rules {

// Reported by the reader.
extern const Rule stored_charge_unverified = {
    .family = Family::safety,
    .severity = Severity::error,
    .summary = "A stored charge is named without contacts, waiting time or the voltage to verify.",
};

}
