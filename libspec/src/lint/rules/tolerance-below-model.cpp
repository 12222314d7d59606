#include <algorithm>

#include "lint/measured.h"
#include "lint/read.h"
#include "lint/readings.h"
#include "lint/rows.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// How much of the model's band a test may leave out at either end: what rounding explains. Common practice,
// no source.
constexpr double least_share = 0.1;

// One B-value gives the place of the curve only near the temperatures that it was taken between, and a row
// whose temperature was rounded from °F only nearly; there their width still holds.
bool is_approximate(const Resistance_model& model, Interval kelvin) {
  return *model.kind == Model_kind::beta ||
         (is_rounded_from_fahrenheit(model) &&
          std::any_of(model.rows.begin(), model.rows.end(), [&](const Table_row& row) {
            return row.at && row.at->si == kelvin.low && off_fahrenheit(*row.at) > 0;
          }));
}
bool is_far_off(const Resistance_model& model, Interval kelvin) {
  if (*model.kind != Model_kind::beta) return false;
  if (!model.at || !model.b_between) return true;
  return !hull(kelvin_interval(*model.at), kelvin_interval(*model.b_between)).contains(kelvin);
}

// Of a table, at one of its rows.
template <class States>
bool has_row(const Resistance_model& model, Interval kelvin, States states) {
  return kelvin.width() == 0 && std::any_of(model.rows.begin(), model.rows.end(), [&](const Table_row& row) {
           return row.at && row.at->si == kelvin.low && states(row);
         });
}
bool has_limits(const Table_row& row) { return row.min && row.max; }

// Whether the model says how far healthy parts spread at that temperature.
bool states_spread(const Resistance_model& model, Interval kelvin) {
  if (*model.kind == Model_kind::iec_60751) return bool(model.tolerance_class);
  if (*model.kind != Model_kind::table) return bool(model.tolerance);
  return has_row(model, kelvin, [](const Table_row& row) { return row.tolerance || has_limits(row); });
}

// What healthy parts have there. Parts of metal that keep one band over a range of temperatures do not fill
// it at one of them: one that is low in it when warm would leave it when cold.
std::optional<Interval> healthy_at(const Resistance_model& model, Interval kelvin) {
  const auto stated = model_interval(model, kelvin);
  if (*model.kind != Model_kind::copper || !stated || model.at->low.si == model.at->high.si) return stated;
  Resistance_model at_one_end = model;
  const auto from = [&](const Quantity& end) {
    at_one_end.at.value = {.low = end, .high = end};
    return model_interval(at_one_end, kelvin);
  };
  const auto one = from(model.at->low), other = from(model.at->high);
  if (!one || !other) return stated;
  const Interval kept{std::max(one->low, other->low), std::min(one->high, other->high)};
  // Else copper-band-impossible says it.
  return kept.low < kept.high ? kept : stated;
}

// Whether others may lie past the component; ends that could not be read lie nobody knows where, and what a
// test withdraws may be what could not be read.
bool may_have_way_past(const Subject& subject, const Test& test) {
  const Document& document = subject.document;
  return has_way_past(subject, test) ||
         (!document.complete() && (reads_the_wiring(document, test) || !fully_read(document, test)));
}

// What a service limit leaves at least of what new parts have: a third; stricter than the maker, a job may
// be. Common practice, no source.
constexpr double least_in_service = 1.0 / 3;

// What a service limit leaves around the nominal.
std::optional<Interval> in_service(const Resistance_model& model, const Value<Tolerance>& limit, double at) {
  const auto nominal = nominal_resistance(model, at);
  if (!nominal) return std::nullopt;
  if (limit->dimension != Dimension::temperature_difference)
    return toleranced_interval(Quantity{.si = *nominal}, limit);
  const auto colder = nominal_resistance(model, at - limit->minus),
             hotter = nominal_resistance(model, at + limit->plus);
  if (!colder || !hotter || *colder == *hotter) return std::nullopt;
  return Interval{std::min(*colder, *hotter), std::max(*colder, *hotter)};
}

// At the reference of the model, or 25 °C: a limit in ohm is meant for one temperature.
void check_service_limit(const Resolved_component& component, Sink& sink) {
  const auto limit = component.get(&Component_type::service_limit);
  const auto model = component.get(&Component_type::model);
  if (!limit || !model || !model->kind || model->pairs || !fully_read(*model.document, *model)) return;
  const double at = model->at ? model->at->low.si : zero_celsius + 25;
  if (!states_spread(*model, {at, at})) return;
  const auto made = model_interval(*model, {at, at}), kept = in_service(*model, *limit, at);
  if (!made || !kept || !(kept->width() > 0) || kept->width() >= least_in_service * made->width()) return;
  const int digits = std::max(kept->low > made->low ? digits_apart(kept->low, made->low) : 0,
                              kept->high < made->high ? digits_apart(kept->high, made->high) : 0);
  report_contradiction(
      sink, component, {limit.document, limit->node, "the service limit"},
      {model.document, model->node, "the model"},
      fmt::format("the service limit leaves {} at {}, and new ones have {}: healthy parts would be "
                  "replaced; state how far a used part may be off",
                  ohm(*kept, digits), celsius(at), ohm(*made, digits)));
}

void check(const Subject& subject, Sink& sink) {
  for (const Resolved_component& component : subject.resolved.components)
    check_service_limit(component, sink);
  each_test(subject, [&](Text, const Test& test) {
    const auto& m = measured(subject, test);
    const auto at = m ? temperature_for(*m) : std::nullopt;
    if (!at || !states_spread(*m->model, *at) || !fully_read(subject.document, test.expect)) return;
    const auto healthy = healthy_at(*m->model, *at);
    // Limits may have been rounded; a tolerance means what it says.
    const bool limits = test.expect.min && test.expect.max;
    const auto band = expected(subject, test, limits ? Taken::generously : Taken::literally);
    if (!healthy || !band || !band->overlaps(*healthy)) return;
    const auto stated =
        has_row(*m->model, *at, has_limits) ? model_interval(*m->model, *at, Taken::generously) : healthy;
    const double margin = least_share * healthy->width();
    const bool low = band->low > healthy->low + std::max(margin, healthy->low - stated->low),
               high = band->high < healthy->high - std::max(margin, stated->high - healthy->high);
    if (!low && !high) return;
    if (is_approximate(*m->model, *at) &&
        (is_far_off(*m->model, *at) || band->width() >= (1 - least_share) * healthy->width()))
      return;
    if (may_have_way_past(subject, test)) return;
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
    .summary = "A test, or the service limit, allows less spread than the component's model.",
    .check = check,
};

}
