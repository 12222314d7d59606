// One part has R(t) = R(t1) (k + t)/(k + t1), which rises with t. It keeps the band low … high from t1 to t2
// if and only if R(t1) >= low and R(t2) <= high, and such a part exists if and only if high/low >= (k +
// t2)/(k + t1).
#include "lint/measured.h"
#include "lint/read.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// (k + t2)/(k + t1) at least, over a range whose ends may each be half a digit nearer; empty where the metal
// is not known, or where the range may be one temperature.
std::optional<Interval> rise(const Resistance_model& model, const Range& at) {
  Interval k = {copper_k_of(model), copper_k_of(model)};
  if (model.k)
    k = written_interval(*model.k);
  else if (!model.metal || *model.metal == Metal::copper)
    k = {copper_k, 235}; // IEC 60335-1 and IEC 60034-1
  else if (*model.metal != Metal::aluminium)
    return std::nullopt;
  const auto one = written_interval(at.low), other = written_interval(at.high);
  const Interval low = celsius_of(at.low.si < at.high.si ? one : other);
  const Interval high = celsius_of(at.low.si < at.high.si ? other : one);
  if (low.high >= high.low || !(k.low + low.low > 0)) return std::nullopt;
  const auto ratio = [&](double with) {
    return (Interval{with, with} + Interval{high.low, high.low}) /
           (Interval{with, with} + Interval{low.high, low.high});
  };
  return Interval{ratio(k.high).low, ratio(k.low).high}; // falls with k
}

// The band as it is written, and as wide as its digits allow.
void check_band(Sink& sink, Node_id node, Interval written, Interval widest, const Resistance_model& model,
                const Range& at, bool sure) {
  const auto needed = rise(model, at);
  if (!needed || !(widest.low > 0)) return;
  const double room = (Interval{widest.high, widest.high} / Interval{widest.low, widest.low}).high;
  if (room >= needed->low) return;
  sink.report_as(
      sure ? Severity::error : Severity::warning, node,
      fmt::format("no part keeps {} from {}: its resistance rises by {} at least over that range, and the "
                  "band leaves room for {} at most; state the band at one temperature",
                  ohm(written), celsius(kelvin_interval(at)), percent(needed->low - 1), percent(room - 1)));
}

// Nothing but metal between the two ends.
bool is_metal_alone(const Resolved_component& component) {
  if (const auto declared = component.get(&Component_type::purely_resistive)) return **declared;
  if (component.is(Component_kind::winding)) return !component.get(&Component_type::protector);
  return is_plain_coil(component);
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (*model.kind != Model_kind::copper || !model.resistance || !model.at ||
        !fully_read(subject.document, model))
      return;
    check_band(sink, model.node, toleranced_interval(*model.resistance, model.tolerance),
               toleranced_interval(*model.resistance, model.tolerance, Taken::generously), model, *model.at,
               is_metal_alone(component));
  });
  each_test(subject, [&](Text, const Test& test) {
    const auto m = measured(subject, test);
    if (!m || *m->model->kind != Model_kind::copper || !test.expect.at) return;
    const auto band = expected_interval(test.expect, Taken::generously);
    if (!band || !fully_read(subject.document, test.expect)) return;
    // The harness adds to the reading and does not rise with the part.
    check_band(sink, test.expect.node, *expected_interval(test.expect), *band, *m->model, *test.expect.at,
               m->alone && m->on_the_part && is_metal_alone(*m->component));
  });
}

}

extern const Rule copper_band_impossible = {
    .family = Family::copper,
    .severity = Severity::error,
    .summary = "A band is stated over a range of temperatures in which the metal itself leaves it.",
    .check = check,
};

}
