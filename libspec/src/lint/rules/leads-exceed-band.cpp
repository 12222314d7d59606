#include "lint/meter.h"
#include "lint/rule.h"

namespace ohmlore::rules {

// Below so many times the leads, what they add decides. Common practice, no source.
static constexpr double times = 3;

static void check(const Subject& subject, Sink& sink) {
  const Handheld meter = reference_meter(subject.resolved.surroundings.corpus);
  each_test(subject, [&](Text, const Test& test) {
    const auto band = expected_interval(test.expect);
    if (!band || band->high >= times * meter.leads || stated(subject.document, test.node, "before")) return;
    sink.report(
        test.expect.node,
        fmt::format("{} is read through leads of {} or so; say in `before` that they are held together and "
                    "subtracted, or expect kind `closed`",
                    ohm(*band), ohm(meter.leads)));
  });
}

extern const Rule leads_exceed_band = {
    .family = Family::meter,
    .severity = Severity::warning,
    .summary = "The leads weigh as much in the reading as the band that it is judged by.",
    .check = check,
};

}
