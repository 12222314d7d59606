#include "lint/rule.h"

namespace ohmlore::rules {

static bool none(const Value<Tolerance>& tolerance) {
  return tolerance && tolerance->minus == 0 && tolerance->plus == 0;
}

static void check(const Subject& subject, Sink& sink) {
  each_stated_band(subject, [&](const Stated_band& band) {
    if (band.min && band.max && band.min->si == band.max->si)
      sink.report(band.max.node, fmt::format("min and max are both {}: no part reads exactly that; state the "
                                             "limits that healthy parts keep",
                                             ohm(band.max->si)));
    if (none(band.tolerance) && !(band.min && band.max))
      sink.report(band.tolerance.node, "no part is without tolerance; state the maker's, or leave it out "
                                       "(the band is then half of the last digit either way)");
  });
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component&) {
    if (none(model.tolerance))
      sink.report(model.tolerance.node, "no part is without tolerance; state the maker's, or leave it out");
  });
}

extern const Rule band_empty = {
    .family = Family::band,
    .severity = Severity::warning,
    .summary = "A band has no width.",
    .check = check,
};

}
