#include <algorithm>

#include "lint/platinum.h"
#include "lint/rule.h"
#include "lint/usual.h"

namespace ohmlore::rules {

// "; 109.7 Ω is what a Pt100 has at 25 °C"
static std::string slip(double r0) {
  for (const double nominal : usual_r0)
    for (const double celsius : {20.0, 25.0, 100.0}) {
      const double there =
          platinum_resistance({celsius, celsius}, {nominal, nominal}).value_or(Interval{}).middle();
      if (std::fabs(r0 / there - 1) < 0.002)
        return fmt::format("; {} is what a Pt{} has at {} °C, and r0 is the resistance at 0 °C", ohm(r0),
                           nominal, celsius);
    }
  return {};
}

static void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (*model.kind != Model_kind::iec_60751 || !model.r0) return;
    // Beyond what is usual, prefix-suspicious has more to say.
    if (const Usual* usual = usual_component(component); usual && !usual->range.contains(model.r0->si))
      return;
    const Interval r0 = written_interval(*model.r0);
    if (std::any_of(std::begin(usual_r0), std::end(usual_r0),
                    [&](double nominal) { return r0.contains(nominal); }))
      return;
    int digits = 0;
    for (const double nominal : usual_r0) digits = std::max(digits, digits_apart(model.r0->si, nominal));
    sink.report(model.r0.node, fmt::format("{} is no usual r0 of a platinum sensor (100 Ω, 500 Ω or 1 kΩ){}",
                                           ohm(model.r0->si, digits), slip(model.r0->si)));
  });
}

extern const Rule rtd_r0_unusual = {
    .family = Family::rtd,
    .severity = Severity::note,
    .summary = "A platinum sensor has a resistance at 0 °C that is not usual.",
    .check = check,
};

}
