#include "lint/rule.h"

namespace ohmlore::rules {

static void check_tolerance(Sink& sink, const Value<Quantity>& nominal, const Value<Tolerance>& tolerance) {
  if (!tolerance) return;
  if (tolerance->relative()) {
    if (tolerance->minus >= 1)
      sink.report(tolerance.node,
                  fmt::format("-{} reaches down to zero and beyond; only the plus side may be "
                              "100 % or more: did you mean \"+{} -…\"?",
                              percent(tolerance->minus), percent(tolerance->plus)));
  } else if (nominal && nominal->si > 0 && tolerance->minus >= nominal->si) {
    sink.report(
        tolerance.node,
        fmt::format("-{} takes {} down to zero or beyond; state a smaller one, or another on either side",
                    describe(tolerance->minus, tolerance->dimension),
                    describe(nominal->si, nominal->dimension)));
    sink.relate(nominal.node, "the nominal");
  }
}

static void check(const Subject& subject, Sink& sink) {
  each_stated_band(subject,
                   [&](const Stated_band& band) { check_tolerance(sink, band.nominal, band.tolerance); });
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component&) {
    check_tolerance(sink, model.resistance ? model.resistance : model.r0, model.tolerance);
    check_tolerance(sink, model.b_value, model.b_tolerance);
  });
  if (const Profile* profile = subject.profile())
    for (const auto& entry : profile->circuits)
      for (const Element& element : entry.value.elements)
        check_tolerance(sink, element.resistance, element.tolerance);
}

extern const Rule tolerance_beyond_100 = {
    .family = Family::band,
    .severity = Severity::error,
    .summary = "The minus side of a tolerance takes away all of the nominal.",
    .check = check,
};

}
