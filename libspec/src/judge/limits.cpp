#include "judge/limits.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

#include "job/curve_notes.h"
#include "judge/course.h"
#include "judge/shown.h"
#include "lint/contacts.h"
#include "lint/measured.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "physics/thresholds.h"

namespace ohmlore {
namespace {

using namespace rules;

// Of sensors that state no service limit (common practice, no source).
constexpr double usual_service_limit = 3;
// What their tables of one row leave open: B of thermistors, and per kelvin platinum and silicon (common
// practice, no source).
constexpr double usual_b_value = 3950, usual_platinum = 0.0039, usual_silicon = 0.0079;

void set_state(Expected& expected, bool closed, const Value<Quantity>& limit, Limit_basis basis) {
  expected.basis = basis;
  const double ohm_limit = limit ? limit->si : closed ? closed_at_most : open_at_least;
  expected.stated = closed ? Interval{0, ohm_limit} : Interval{ohm_limit, infinity};
  expected.words =
      fmt::format("{}{}", closed ? "a closed contact" : "an open path", limit ? "" : " (common practice)");
}

// Of a part that states its metal and no model: how that changes.
std::optional<Resistance_model> metal_model(const Resolved_component& component, const Range& at,
                                            double ohm) {
  const auto metal = component.get(&Component_type::metal);
  if (!metal || !is_metal_alone(component)) return std::nullopt;
  Resistance_model model;
  model.kind = {Model_kind::copper, 1};
  model.metal = *metal;
  model.resistance = {{.si = ohm}, 1};
  model.at = {at, 1};
  return metal_k(model) ? std::optional(model) : std::nullopt;
}

// Around the nominal: the component's own limit, the policy's for sensors, else what it is made within.
void set_service(Expected& expected, const Surroundings& around) {
  const Resistance_model& model = *expected.model;
  expected.manufacturing_words = model.tolerance ? described(*model.tolerance)
                                 : model.tolerance_class
                                     ? fmt::format("class {}", word_of(*model.tolerance_class))
                                     : "its model";
  const auto own = expected.component->get(&Component_type::service_limit);
  if (own && ((**own).dimension != Dimension::temperature_difference || expected.varies)) {
    expected.service = *own;
    expected.basis = Limit_basis::service_limit;
  } else if (is_temperature_sensor(*expected.component, model)) {
    const bool stated = around.corpus != nullptr && around.corpus->policy.service_limit;
    const double kelvins = stated ? around.corpus->policy.service_limit->si : usual_service_limit;
    expected.service = {{kelvins, kelvins, Dimension::temperature_difference}, 1};
    expected.basis = stated ? Limit_basis::policy : Limit_basis::practice;
  } else {
    expected.words = expected.manufacturing_words;
    return;
  }
  expected.words = described(*expected.service);
}

}

std::string described(const Tolerance& tolerance) {
  const auto side = [&](double value) { return describe(value, tolerance.dimension); };
  if (tolerance.minus == tolerance.plus) return "± " + side(tolerance.plus);
  return fmt::format("+{} -{}", side(tolerance.plus), side(tolerance.minus));
}

bool is_temperature_sensor(const Resolved_component& component, const Resistance_model& model) {
  return model.kind && depends_on_temperature(model) && is_temperature_sensor(component);
}

Interval Expected::kelvin_range() const {
  const auto range = component->get(&Component_type::temperature_range);
  return range ? kelvin_interval(**range) : Interval{zero_celsius - 40, zero_celsius + 200};
}

double Expected::asked_at(double kelvin) const {
  constexpr double little = 15; // kelvin (common practice, no source)
  if (!rows_reach || is_temperature_sensor(*component)) return kelvin;
  const double nearest = std::clamp(kelvin, rows_reach->low, rows_reach->high);
  return std::fabs(nearest - kelvin) <= little ? nearest : kelvin;
}

// Whose rows alone say how they run, and between them not at all.
static bool goes_by_rows(const Expected& expected) {
  return expected.model && *expected.model->kind == Model_kind::table &&
         expected.between != Between_rows::thermistor;
}

// Between two rows of limits alone: along the chord of their middles. None jumps from one to the other.
static std::optional<double> between_middles(const Resistance_model& model, double kelvin) {
  std::map<double, double> middles;
  for (const Table_row& row : model.rows)
    if (const auto limits = row_interval(row); limits && row.at && row.at->si > 0 && limits->middle() > 0)
      middles.emplace(row.at->si, limits->middle());
  const auto right = middles.lower_bound(kelvin);
  if (right == middles.end()) return std::nullopt;
  if (right->first == kelvin) return right->second;
  if (right == middles.begin()) return std::nullopt;
  const auto left = std::prev(right);
  return resistance_between({left->first, left->second}, {right->first, right->second}, kelvin);
}

std::optional<double> Expected::stated_nominal_at(double asked) const {
  const double kelvin = asked_at(asked);
  if (circuit || !model || (varies && !(kelvin > 0))) return std::nullopt;
  const auto nominal = nominal_resistance(*model, kelvin);
  return nominal ? std::optional(times * *nominal) : std::nullopt;
}

static std::optional<double> middle_of_circuit(const Expected& expected, double kelvin, bool beside) {
  const auto band = expected.circuit(kelvin, beside);
  return band ? std::optional(expected.times * band->middle()) : std::nullopt;
}

std::optional<double> Expected::nominal_at(double asked) const {
  if (circuit) return middle_of_circuit(*this, asked, false);
  if (const auto nominal = stated_nominal_at(asked)) return nominal;
  const double kelvin = asked_at(asked);
  if (!model || (varies && !(kelvin > 0))) return std::nullopt;
  if (goes_by_rows(*this))
    if (const auto middle = between_middles(*model, kelvin)) return times * *middle;
  const auto band = model_interval(*model, {kelvin, kelvin}, Taken::literally, between);
  return band ? std::optional(times * band->middle()) : std::nullopt;
}

// R at a temperature over R at another.
static double usual_change(const Resolved_component& component, double from, double to) {
  if (from == to) return 1; // 0 K, too
  if (is_bare_ntc(component)) return std::exp(usual_b_value * (1 / to - 1 / from));
  if (component.is(Component_kind::rtd)) return std::exp(usual_platinum * (to - from));
  return component.is(Component_kind::ptc) ? std::exp(usual_silicon * (to - from)) : 1;
}

bool Expected::has_course(double kelvin) const {
  return !goes_by_rows(*this) || nominal_resistance(*model, asked_at(kelvin));
}

// Beyond the rows along the chord of the last two, as between them.
std::optional<double> Expected::nominal_beside(double kelvin) const {
  if (const auto here = nominal_at(kelvin)) return here;
  if (circuit) return middle_of_circuit(*this, kelvin, true);
  if (!rows_reach || !(model || stated) || !is_temperature_sensor(*component)) return std::nullopt;
  const double end = std::clamp(kelvin, rows_reach->low, rows_reach->high);
  if (!model) return stated->middle() * usual_change(*component, end, kelvin);
  const double inside = end + (kelvin < end ? 0.5 : -0.5);
  const auto at_end = nominal_at(end), near = nominal_at(inside);
  if (!at_end) return std::nullopt;
  if (!near || !(*near > 0)) return *at_end * usual_change(*component, end, kelvin);
  return resistance_between({inside, *near}, {end, *at_end}, kelvin);
}

std::optional<double> Expected::kelvin_of(double ohm) const {
  if (!model || !varies) return std::nullopt;
  // A table need not speak of all temperatures of a part: to the ends of its rows.
  const Interval part = kelvin_range(), rows = rows_reach.value_or(part);
  const double low = std::clamp(rows.low, part.low, part.high),
               high = std::clamp(rows.high, part.low, part.high);
  constexpr int steps = 60;
  std::optional<double> before_kelvin, before;
  for (int i = 0; i <= steps; ++i) {
    const double kelvin = std::lerp(low, high, static_cast<double>(i) / steps);
    const auto now = nominal_at(kelvin);
    if (now && before && (*before - ohm) * (*now - ohm) <= 0 && *before != *now) {
      Interval within = {*before_kelvin, kelvin};
      const bool rises = *now > *before;
      for (int halvings = 0; halvings < 50; ++halvings) {
        const auto middle = nominal_at(within.middle());
        if (!middle) break;
        ((*middle < ohm) == rises ? within.low : within.high) = within.middle();
      }
      return within.middle();
    }
    before = now;
    before_kelvin = kelvin;
  }
  return std::nullopt;
}

std::optional<Interval> Expected::manufacturing_at(double asked) const {
  const double kelvin = asked_at(asked);
  return model && !part_of_it ? model_interval(*model, {kelvin, kelvin}, Taken::literally, between)
                              : std::nullopt;
}

std::optional<Interval> Expected::manufacturing_beside(double kelvin) const {
  if (const auto here = manufacturing_at(kelvin)) return here;
  if (!rows_reach) return std::nullopt;
  const double end = std::clamp(kelvin, rows_reach->low, rows_reach->high);
  const auto band = manufacturing_at(end);
  const auto at_end = nominal_at(end), here = nominal_beside(kelvin);
  if (!band || !at_end || !(*at_end > 0) || !here) return std::nullopt;
  return Interval{band->low * (*here / *at_end), band->high * (*here / *at_end)};
}

std::optional<Interval> Expected::service_at(double kelvin) const {
  const auto within = [&](Interval at) { return at.low - 0.5 < kelvin && kelvin < at.high + 0.5; };
  const bool as_stated =
      stated && (stated_at ? within({*stated_at, *stated_at}) : rows_reach && within(*rows_reach));
  return !varies || nominal_at(kelvin) || as_stated ? service_beside(kelvin) : std::nullopt;
}

std::optional<Interval> Expected::service_beside(double kelvin) const {
  if (stated) {
    if (!varies) return stated;
    if (circuit) {
      const auto here = circuit(kelvin, true), there = circuit(*stated_at, true);
      const auto carried = [](double limit, double to, double from) {
        return from > 0 ? limit * (to / from) : limit;
      };
      return here && there ? std::optional(Interval{carried(stated->low, here->low, there->low),
                                                    carried(stated->high, here->high, there->high)})
                           : std::nullopt;
    }
    if (!model) {
      const double end = std::clamp(kelvin, rows_reach->low, rows_reach->high),
                   factor = usual_change(*component, end, kelvin);
      return Interval{stated->low * factor, stated->high * factor};
    }
    const auto here = nominal_beside(kelvin), there = nominal_at(*stated_at);
    if (!there || !(*there > 0) || !here) return std::fabs(kelvin - *stated_at) < 0.5 ? stated : std::nullopt;
    const double factor = *here / *there;
    return Interval{stated->low * factor, stated->high * factor};
  }
  if (!service) return manufacturing_beside(kelvin);
  const auto known = nominal_beside(kelvin);
  if (!known) return std::nullopt;
  const double nominal = *known;
  const auto made = manufacturing_beside(kelvin);
  const bool may_be_as_made = made && (is_assumed() || !has_course(kelvin));
  const auto widened = [&](Interval limits) { return may_be_as_made ? hull(limits, *made) : limits; };
  if (service->dimension != Dimension::temperature_difference) {
    const double unit = service->relative() ? nominal : 1;
    return widened({std::max(0.0, nominal - service->minus * unit), nominal + service->plus * unit});
  }
  // Where the model ends, its curve goes on as it does there.
  const double here = asked_at(kelvin);
  const auto reads = [&](double offset) {
    const double beside = here + offset;
    const auto there = asked_at(beside) == beside ? nominal_beside(beside) : std::nullopt;
    if (there) return *there;
    const double step = offset > 0 ? -0.5 : 0.5;
    const auto near = nominal_at(here + step);
    return near && *near > 0 ? nominal * std::pow(nominal / *near, -offset / step) : nominal;
  };
  const double low = reads(-service->minus), high = reads(service->plus);
  if (low == high) return made; // nothing tells how it changes
  return widened({std::min(low, high), std::max(low, high)});
}

double slope_at(const Expected& expected, double kelvin, double step) {
  const auto left = expected.nominal_beside(kelvin - step), right = expected.nominal_beside(kelvin + step);
  return left && right ? (*right - *left) / (2 * step) : 0;
}

std::vector<std::string> doubts_at(const Expected& expected, Interval kelvin) {
  std::vector<std::string> doubts;
  // Beside a twin of the same curve its doubts cancel.
  if (expected.basis == Limit_basis::twin) return doubts;
  const bool one_row = expected.rows_reach && expected.rows_reach->width() == 0;
  if (expected.varies && (one_row || !expected.model) && is_temperature_sensor(*expected.component))
    doubts.push_back(fmt::format("{}: how it changes with temperature is taken from usual sensors (common "
                                 "practice)",
                                 expected.model ? "its table has one row"
                                 : expected.component->get(&Component_type::model)
                                     ? "what its test states holds over a range"
                                     : "it has no model"));
  if (!expected.model) return doubts;
  // Limits that a test states do not come from the curve, only their course.
  if (!expected.stated)
    for (const Curve_note& note : notes_at(*expected.component, *expected.model, kelvin)) {
      // The limits say themselves what they are; the range is said below, also of a part that states none.
      if (note.id != "as_made" && note.id != "threshold" && note.id != "stated_range")
        doubts.push_back(note_text(note));
    }
  if (expected.varies && !expected.kelvin_range().contains(kelvin))
    doubts.push_back(beyond_text(expected.kelvin_range(), Temperature_unit::celsius));
  return doubts;
}

std::optional<Expected> model_expectation(const Resolved& resolved, const Resolved_component& component,
                                          const Test& test) {
  const auto model = component.get(&Component_type::model);
  if (!model || !model->kind) return std::nullopt;
  Expected expected;
  expected.component = &component;
  expected.between = between_rows(component);
  if (has_threshold(*model)) {
    const bool closed = *model->kind == Model_kind::closed;
    set_state(expected, closed, closed ? model->below : model->above, Limit_basis::state);
    return expected;
  }
  expected.model = *with_metal(*model, component);
  if (model->pairs) {
    const bool known = has_both_ends(test.probes);
    const Terminal_pair* pair =
        known ? pair_between(component, *model, *test.probes[0], *test.probes[1]) : nullptr;
    if (pair == nullptr) return std::nullopt;
    expected.model->resistance = pair->resistance;
    expected.model->pairs = {};
  }
  expected.varies = depends_on_temperature(*model);
  set_service(expected, resolved.surroundings);
  if (*model->kind == Model_kind::table)
    for (const Table_row& row : model->rows)
      if (row.at && row_interval(row)) {
        const Interval at = {row.at->si, row.at->si};
        expected.rows_reach = expected.rows_reach ? hull(*expected.rows_reach, at) : at;
      }
  return expected;
}

namespace {

std::string why_nothing_is_known(const Resolved& resolved, const Resolved_component& component) {
  const auto part = missing_part(resolved, component);
  if (!part)
    return fmt::format("nothing says what {} reads here: neither the test (`expect`) nor a model of {}",
                       quoted(component.id), component.part != nullptr ? "its part" : "the component");
  if (part->why == Missing_part::Why::broken)
    return fmt::format("the part {} of {} cannot be used: {} cannot be read without errors; mend it first",
                       quoted(part->id), component.id, printable(part->broken));
  if (part->why == Missing_part::Why::unread)
    return fmt::format("the part {} of {} is not among those that could be read; {}", quoted(part->id),
                       component.id, printable(part->unread));
  if (part->why == Missing_part::Why::unknown)
    return fmt::format("the part {} of {} is not found below {} (`part_paths` of corpus.json): add its "
                       "document there",
                       quoted(part->id), component.id, listed(part_folders(resolved.surroundings.corpus)));
  return fmt::format("the part {} of {} is not found: keep the profile below its corpus.json, or name the "
                     "folder with --root",
                     quoted(part->id), component.id);
}

// Of a contact in the condition that the test names; empty where its component states none for that.
std::optional<Expected> limits_of_state(const Test& test, const Resolved_component& component) {
  const auto state = state_between_probes(component, test);
  if (!state) return std::nullopt;
  Expected expected;
  expected.component = &component;
  const bool closed = *state == Contact_state::closed;
  const auto model = component.get(&Component_type::model);
  const bool of_closed = model && model->kind && *model->kind == Model_kind::closed;
  set_state(expected, closed, closed && of_closed ? model->below : Value<Quantity>{}, Limit_basis::state);
  expected.stated = reading_in(component, *state);
  return expected;
}

std::optional<Expected> limits_of_component(const Resolved& resolved, const Test& test,
                                            const Resolved_component& component) {
  if (auto of_state = limits_of_state(test, component)) return of_state;
  auto expected = model_expectation(resolved, component, test);
  const bool alone =
      on_own_contacts(test, component) || stated(*resolved.document, test.node, "disconnect_also");
  if (expected && !alone)
    expected->remarks.push_back("the leads are not on the component's own contacts: whatever lies between is "
                                "read too");
  return expected;
}

// A circuit changes as all of its parts do together: a sensor beside a resistor by less than alone.
bool set_circuit(Expected& expected, const Resolved& resolved, const Test& test, Interval at) {
  constexpr double much = 50; // kelvin
  const auto here = circuit_band(resolved, test, at.low, true),
             there = circuit_band(resolved, test, at.low + much, true);
  if (at.width() > 0 || !here || !there || !(here->high > 0) || std::isinf(here->high) ||
      (here->low == there->low && here->high == there->high))
    return false;
  expected.circuit = [&resolved, &test](double kelvin, bool beside) {
    return circuit_band(resolved, test, kelvin, beside);
  };
  expected.times = expected.stated->middle() / here->middle();
  expected.stated_at = at.low;
  expected.varies = expected.part_of_it = true;
  return true;
}

// A model carries the band to other temperatures only where it holds at one.
void set_band(Expected& expected, const Resolved& resolved, const Test& test) {
  const Expectation& expect = test.expect;
  const auto band = expected_interval(expect);
  if (!band) return;
  expected.stated = {std::max(0.0, band->low), band->high};
  expected.words = shown_ohm(*expected.stated);
  if (expect.at && set_circuit(expected, resolved, test, kelvin_interval(*expect.at))) return;
  const bool course_alone = !expected.model && expect.at;
  if (course_alone &&
      (expected.model = metal_model(*expected.component, *expect.at, expected.stated->middle())))
    expected.varies = true;
  if (expect.at && expected.varies) {
    const Interval at = kelvin_interval(*expect.at);
    if (at.width() == 0) expected.stated_at = at.low;
    const auto of_part = expected.manufacturing_at(at.middle());
    const bool in_circuit = !circuits_of(resolved, *expected.component).empty();
    expected.part_of_it = course_alone || in_circuit || !of_part || !of_part->overlaps(*expected.stated);
    const auto of_model = expected.nominal_at(at.middle());
    if (expected.part_of_it && of_model) expected.times = expected.stated->middle() / *of_model;
  }
  const Resolved_component& component = *expected.component;
  const bool warms = expected.varies || component.is(Component_kind::ntc) ||
                     component.is(Component_kind::ptc) || component.is(Component_kind::rtd);
  if (!expect.at && warms)
    expected.remarks.push_back(
        "the test does not say at which temperature its limits hold: they are taken for any");
  if (expected.stated_at) return;
  if (expected.varies) expected.model = {};
  expected.varies = false;
}

void set_limits(Expected& expected, const Value<Quantity>& low, const Value<Quantity>& high) {
  expected.stated = Interval{low ? low->si : 0, high ? high->si : infinity};
  expected.words = shown_ohm(*expected.stated);
}

// What the expectation itself states; nothing where that could not be read.
void set_stated(Expected& expected, const Resolved& resolved, const Test& test, bool reversed) {
  const Expectation& expect = test.expect;
  switch (*expect.kind) {
  case Expectation_kind::band: return set_band(expected, resolved, test);
  case Expectation_kind::open:
    if (expect.above) set_state(expected, false, expect.above, Limit_basis::expectation);
    break;
  case Expectation_kind::closed:
    if (expect.below) set_state(expected, true, expect.below, Limit_basis::expectation);
    break;
  case Expectation_kind::not_short:
  case Expectation_kind::rises_to_open:
    if (expect.above) set_limits(expected, expect.above, {});
    break;
  case Expectation_kind::smooth_sweep: set_limits(expected, expect.min, expect.max); break;
  case Expectation_kind::both_directions:
    if (reversed)
      set_limits(expected, expect.reverse_min, expect.reverse_max);
    else
      set_limits(expected, expect.min, expect.max);
    break;
  case Expectation_kind::pair: expected.basis = Limit_basis::twin; return;
  }
  expected.varies = false;
  expected.model = {};
}

// A sensor changes with temperature also where nothing says how much.
void hold_where_stated(Expected& expected, const Expectation& expect) {
  if (expected.model || !expected_interval(expect) || !expect.at ||
      !is_temperature_sensor(*expected.component))
    return;
  expected.varies = true;
  expected.rows_reach = kelvin_interval(*expect.at);
}

Expected limits_of_expectation(const Resolved& resolved, const Test& test,
                               const Resolved_component& component, bool reversed) {
  Expected expected;
  expected.component = &component;
  if (auto model = model_expectation(resolved, component, test)) expected = std::move(*model);
  expected.service = {};
  expected.basis = Limit_basis::expectation;
  set_stated(expected, resolved, test, reversed);
  return expected;
}

std::optional<Expected> limits_of(const Resolved& resolved, const Test& test, bool reversed,
                                  std::string& problem) {
  const Resolved_component* component = test.component ? resolved.component(*test.component) : nullptr;
  if (component == nullptr) {
    problem = "the test names no component of the profile: mend the profile, `ohmlore lint` says where";
    return std::nullopt;
  }
  if (!test.expect || !test.expect.kind) {
    auto expected = limits_of_component(resolved, test, *component);
    if (!expected) problem = why_nothing_is_known(resolved, *component);
    return expected;
  }
  Expected expected = limits_of_expectation(resolved, test, *component, reversed);
  hold_where_stated(expected, test.expect);
  if (expected.stated || expected.basis == Limit_basis::twin) return expected;
  problem = "the test states no limits that could be read: mend the profile, `ohmlore lint` says where";
  return std::nullopt;
}

}

std::optional<Expected> expected_of(const Resolved& resolved, const Test& test, bool reversed,
                                    std::string& problem) {
  auto expected = limits_of(resolved, test, reversed, problem);
  if (expected && must_be_cold(*expected->component, test))
    expected->remarks.push_back(
        "holds while it is cold: warm, it gives a voltage of its own, which the meter "
        "takes for a part of the reading");
  return expected;
}

}
