#include "lint/spelling.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  report_spellings(subject, sink, Unit_problem::Kind::look_alike_accepted);
}

extern const Rule look_alike_accepted = {
    .family = Family::unit,
    .severity = Severity::note,
    .summary = "A quantity holds a character that only looks like the one of its unit, and is accepted.",
    .check = check,
};

}
