#include "lint/meter.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {

// Below so many times the leads, what they add decides. Common practice, no source.
static constexpr double times = 3;

static void check(const Subject& subject, Sink& sink) {
  const Handheld meter = reference_meter(subject.resolved.surroundings.corpus);
  each_test(subject, [&](Text, const Test& test) {
    const auto band = expected(subject, test);
    if (!band || test.before) return;
    if (below_lowest_range(meter, *band)) return; // beyond-handheld
    const bool low = band->high < times * meter.leads;
    const bool narrow = band->low >= 0 && band->width() > 0 && band->width() < meter.leads &&
                        tells(meter, *band); // else below-meter-resolution
    if (!low && !narrow) return;
    sink.report(
        test.expect.node,
        fmt::format("{} is read through leads of {} or so; say in `before` that they are held together and "
                    "subtracted{}",
                    ohm(*band), ohm(meter.leads), low ? ", or expect kind `closed`" : ""));
  });
}

extern const Rule leads_exceed_band = {
    .family = Family::meter,
    .severity = Severity::warning,
    .summary = "The leads weigh as much in the reading as the band that it is judged by.",
    .check = check,
    .goes_by_absence = true,
};

}
