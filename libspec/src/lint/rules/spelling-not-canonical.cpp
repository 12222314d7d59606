#include "lint/spelling.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  report_spellings(subject, sink, Unit_problem::Kind::not_canonical);
}

extern const Rule spelling_not_canonical = {
    .family = Family::unit,
    .severity = Severity::note,
    .summary = "A quantity is readable, but spelled another way than the canonical one.",
    .check = check,
};

}
