#include "lint/meter.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {

// What rounding leaves of a band without width, which is for band-empty, as a part of it.
static constexpr double rounding = 1e-12;

static void check(const Subject& subject, Sink& sink) {
  const Handheld meter = reference_meter(subject.resolved.surroundings.corpus);
  each_test(subject, [&](Text, const Test& test) {
    const auto band = expected(subject, test);
    if (!band || !(band->low >= 0) || !(band->width() > rounding * band->high) || tells(meter, *band)) return;
    if (below_lowest_range(meter, *band) || band->high > highest_range(meter)) return; // beyond-handheld
    const double middle = band->middle(), error = meter_error(meter, middle);
    sink.report(
        test.expect.node,
        fmt::format("{} is ±{} around {}, and the meter may be off by ±{} there ({} + {:g} counts of {}): no "
                    "reading can be judged; widen the band, or state the test for a better meter",
                    ohm(*band), ohm(band->width() / 2), ohm(middle), ohm(error), percent(meter.accuracy),
                    meter.counts, ohm(last_digit(meter, middle))));
  });
}

extern const Rule below_meter_resolution = {
    .family = Family::meter,
    .severity = Severity::warning,
    .summary = "A test expects a band narrower than the meter can tell.",
    .check = check,
    .goes_by_absence = true,
};

}
