#include "lint/raised.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_fault(subject, [&](Text, const Fault& fault) {
    const Value<Quantity>&below = fault.raised.below, &above = fault.raised.above;
    if (!below || !above || below->dimension != above->dimension || below->si < above->si) return;
    const auto shown = [](const Quantity& value) { return describe(value.si, value.dimension); };
    sink.report(fault.raised.node, fmt::format("raised below {} and above {}: that leaves no reading to a "
                                               "healthy sensor; exchange the two, or name two codes",
                                               shown(*below), shown(*above)));
  });
}

extern const Rule raised_always = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A code is raised by every reading of its sensor.",
    .check = check,
};

}
