#include "lint/measured.h"
#include "lint/read.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// How much of the model's band a test may leave out at either end: what rounding explains. Common practice,
// no source.
constexpr double least_share = 0.1;

// One B-value gives the place of the curve only near the temperatures that it was taken between; there its
// width still holds.
bool is_approximate(const Resistance_model& model) { return *model.kind == Model_kind::beta; }
bool is_far_off(const Resistance_model& model, Interval kelvin) {
  if (!model.at || !model.b_between) return true;
  return !hull(kelvin_interval(*model.at), kelvin_interval(*model.b_between)).contains(kelvin);
}

// Whether the model says how far healthy parts spread at that temperature.
bool states_spread(const Resistance_model& model, Interval kelvin) {
  if (*model.kind == Model_kind::iec_60751) return bool(model.tolerance_class);
  if (*model.kind != Model_kind::table) return bool(model.tolerance);
  for (const Table_row& row : model.rows)
    if (row.at && row.at->si == kelvin.low && kelvin.width() == 0 && (row.tolerance || (row.min && row.max)))
      return true;
  return false;
}

void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text, const Test& test) {
    const auto& m = measured(subject, test);
    const auto at = m ? temperature_for(*m) : std::nullopt;
    if (!at || !states_spread(*m->model, *at) || !fully_read(subject.document, test.expect)) return;
    const auto healthy = model_interval(*m->model, *at);
    // Limits may have been rounded; a tolerance means what it says.
    const bool limits = test.expect.min && test.expect.max;
    const auto band = expected(subject, test, limits ? Taken::generously : Taken::literally);
    if (!healthy || !band || !band->overlaps(*healthy)) return;
    if (is_approximate(*m->model) &&
        (is_far_off(*m->model, *at) || band->width() >= (1 - least_share) * healthy->width()))
      return;
    const double margin = least_share * healthy->width();
    const bool low = band->low > healthy->low + margin, high = band->high < healthy->high - margin;
    if (!low && !high) return;
    const Interval shown = *expected(subject, test);
    const int digits = std::max(low ? digits_apart(shown.low, healthy->low) : 0,
                                high ? digits_apart(shown.high, healthy->high) : 0);
    sink.report(
        test.expect.node,
        fmt::format("{} would refuse healthy parts: the model of {} allows {} at {}; widen the test's "
                    "band to that at least",
                    ohm(shown, digits), m->component->id, ohm(*healthy, digits), celsius(*at)));
    sink.relate(*m->model_document, m->said, "the model");
  });
}

}

extern const Rule tolerance_below_model = {
    .family = Family::band,
    .severity = Severity::warning,
    .summary = "A test expects less spread than the component's model allows.",
    .check = check,
};

}
