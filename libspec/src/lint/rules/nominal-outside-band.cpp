#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_stated_band(subject, [&](const Stated_band& band) {
    if (!band.nominal || !band.min || !band.max || band.min->si > band.max->si) return;
    const Interval limits = {written_interval(*band.min).low, written_interval(*band.max).high};
    if (written_interval(*band.nominal).overlaps(limits)) return;
    const bool above = band.nominal->si > band.max->si;
    sink.report(band.nominal.node,
                fmt::format("nominal {} is {} {} of its own band {}; one of the three is wrong",
                            ohm(band.nominal->si), above ? "above max" : "below min",
                            ohm(above ? band.max->si : band.min->si),
                            ohm(Interval{band.min->si, band.max->si})));
    sink.relate(above ? band.max.node : band.min.node, above ? "max" : "min");
  });
}

extern const Rule nominal_outside_band = {
    .family = Family::band,
    .severity = Severity::error,
    .summary = "A nominal lies outside of the limits stated beside it.",
    .check = check,
};

}
