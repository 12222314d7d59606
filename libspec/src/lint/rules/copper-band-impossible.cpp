// One part has R(t) = R(t1) (k + t)/(k + t1), which rises with t. It keeps the band low … high from t1 to t2
// if and only if R(t1) >= low and R(t2) <= high, and such a part exists if and only if high/low >= (k +
// t2)/(k + t1).

#include "lint/measured.h"
#include "lint/read.h"
#include "lint/rule.h"
#include "lint/stated_model.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// Over which a resistance rises.
bool is_over_a_range(const Value<Range>& at) { return at && at->low.si != at->high.si; }

// (k + t2)/(k + t1) at least, over a range whose ends may each be half a digit nearer; empty where the metal
// is not known, or where the range may be one temperature.
std::optional<Interval> rise(const Resistance_model& model, const Range& at) {
  const auto k = metal_k(model);
  if (!k) return std::nullopt;
  const auto one = written_interval(at.low), other = written_interval(at.high);
  const Interval low = celsius_of(at.low.si < at.high.si ? one : other);
  const Interval high = celsius_of(at.low.si < at.high.si ? other : one);
  if (low.high >= high.low || !(k->low + low.low > 0)) return std::nullopt;
  const auto ratio = [&](double with) {
    return (Interval{with, with} + Interval{high.low, high.low}) /
           (Interval{with, with} + Interval{low.high, low.high});
  };
  return Interval{ratio(k->high).low, ratio(k->low).high}; // falls with k
}

// By how much, as a ratio, a part may rise within a band that may be stated with something in series besides,
// in ohm. (high - h)/(low - h) grows with h.
double room(Interval band, double in_series) {
  const auto part_of = [&](double ohm) { return Interval{ohm, ohm} - Interval{in_series, in_series}; };
  if (!(part_of(band.low).low > 0)) return infinity;
  return (part_of(band.high) / part_of(band.low)).high;
}

struct Band {
  Interval written, widest; // as wide as its digits allow
  double in_series = 0;     // what leads may add, in ohm
};

// A nominal by itself may be meant as a typical value.
bool is_bounded(const Expectation& expect) { return expect.tolerance || (expect.min && expect.max); }

void check_band(Sink& sink, Node_id node, const Band& band, const Resistance_model& model, const Range& at,
                bool alone) {
  const auto needed = rise(model, at);
  if (!needed || !(band.widest.low > 0) || room(band.widest, 0) >= needed->low) return;
  const auto [rise_at_least, room_at_most] =
      apart(needed->low - 1, room(band.widest, 0) - 1, Dimension::ratio);
  const bool sure = alone && room(band.widest, band.in_series) < needed->low;
  sink.report_as(
      sure ? Severity::error : Severity::warning, node,
      fmt::format("no part keeps {} from {}: its resistance rises by {} at least over that range, and the "
                  "band leaves room for {} at most; state the band at one temperature",
                  ohm(band.written), celsius(kelvin_interval(at)), rise_at_least, room_at_most));
}

void check_model(Sink& sink, const Resistance_model& model, const Resolved_component& component) {
  const auto of_metal = with_metal(model, component);
  const auto check_one = [&](Node_id node, const Value<Quantity>& resistance) {
    if (!resistance) return;
    check_band(sink, node,
               {toleranced_interval(*resistance, model.tolerance),
                toleranced_interval(*resistance, model.tolerance, Taken::generously)},
               *of_metal, *model.at, is_metal_alone(component) && states_tolerances(model));
  };
  check_one(model.node, model.resistance);
  for (const Terminal_pair& pair : model.pairs) check_one(pair.node, pair.resistance);
}

void check(const Subject& subject, Sink& sink) {
  each_own_model(subject, [&](const Resistance_model& model, const Resolved_component& component) {
    if (*model.kind == Model_kind::copper && is_over_a_range(model.at) && fully_read(subject.document, model))
      check_model(sink, model, component);
  });
  each_test(subject, [&](Text, const Test& test) {
    if (!is_over_a_range(test.expect.at)) return;
    const auto& m = measured(subject, test);
    if (!m || *m->model->kind != Model_kind::copper) return;
    const auto band = expected(subject, test, Taken::generously);
    if (!band || !fully_read(subject.document, test.expect)) return;
    check_band(sink, test.expect.node, {*expected(subject, test), *band, most_leads}, *m->model,
               *test.expect.at,
               m->alone && m->on_the_part && is_metal_alone(*m->component) && is_bounded(test.expect) &&
                   fully_read(*m->model_document, *m->model));
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
