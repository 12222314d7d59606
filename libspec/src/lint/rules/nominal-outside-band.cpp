#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_stated_band(subject, [&](const Stated_band& band) {
    if (!band.nominal || !band.min || !band.max || band.min->si > band.max->si) return;
    Table_row nominal, limits;
    nominal.nominal = band.nominal;
    limits.min = band.min;
    limits.max = band.max;
    if (row_interval(nominal, Taken::generously)->overlaps(*row_interval(limits, Taken::generously))) return;
    const bool above = band.nominal->si > band.max->si;
    const auto [nominal_text, limit] =
        apart(band.nominal->si, above ? band.max->si : band.min->si, Dimension::resistance);
    sink.report(band.nominal.node,
                fmt::format("nominal {} is {} {} of its own band {}; one of the three is wrong", nominal_text,
                            above ? "above max" : "below min", limit,
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
