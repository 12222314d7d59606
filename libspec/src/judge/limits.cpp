#include "judge/limits.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "job/curve_notes.h"
#include "judge/measuring.h"
#include "lint/contacts.h"
#include "lint/measured.h"
#include "lint/readings.h"
#include "lint/rule.h"

namespace ohmlore {
namespace {

using namespace rules;

constexpr double infinity = std::numeric_limits<double>::infinity();
// Of sensors that state no service limit (common practice, no source).
constexpr double usual_service_limit = 3;

bool changes_with_temperature(const Resistance_model& model) {
  switch (*model.kind) {
  case Model_kind::fixed:
  case Model_kind::power:
  case Model_kind::open:
  case Model_kind::closed: return false;
  default: return true;
  }
}

const Terminal_pair* pair_between(const Resolved_component& component, const Resistance_model& model,
                                  const Contact& a, const Contact& b) {
  if (component.placed == nullptr) return nullptr;
  const auto at = [&](const Value<Text>& terminal) -> const Contact* {
    const auto* found = terminal ? component.placed->terminals.find(*terminal) : nullptr;
    return found != nullptr && found->value ? &*found->value : nullptr;
  };
  for (const Terminal_pair& pair : model.pairs) {
    const Contact *from = at(pair.from), *to = at(pair.to);
    if (from == nullptr || to == nullptr || !pair.resistance) continue;
    if ((*from == a && *to == b) || (*from == b && *to == a)) return &pair;
  }
  return nullptr;
}

void set_state(Expected& expected, bool closed, const Value<Quantity>& limit, Limit_basis basis) {
  expected.basis = basis;
  const double ohm_limit = limit ? limit->si : closed ? closed_at_most : open_at_least;
  expected.stated = closed ? Interval{0, ohm_limit} : Interval{ohm_limit, infinity};
  expected.words =
      fmt::format("{}{}", closed ? "a closed contact" : "an open path", limit ? "" : " (common practice)");
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
  if (!model.kind || !changes_with_temperature(model)) return false;
  if (component.is(Component_kind::ntc) || component.is(Component_kind::rtd)) return true;
  const auto type = component.get(&Component_type::type);
  return component.is(Component_kind::ptc) && type && **type == Ptc_type::silicon;
}

Interval Expected::kelvin_range() const {
  const auto range = component->get(&Component_type::temperature_range);
  return range ? kelvin_interval(**range) : Interval{zero_celsius - 40, zero_celsius + 200};
}

double Expected::asked_at(double kelvin) const {
  constexpr double little = 15; // kelvin (common practice, no source)
  if (!rows_reach || is_temperature_sensor(*component, *model)) return kelvin;
  const double nearest = std::clamp(kelvin, rows_reach->low, rows_reach->high);
  return std::fabs(nearest - kelvin) <= little ? nearest : kelvin;
}

std::optional<double> Expected::nominal_at(double asked) const {
  const double kelvin = asked_at(asked);
  if (!model || !(kelvin > 0)) return std::nullopt;
  if (const auto nominal = nominal_resistance(*model, kelvin)) return nominal;
  const auto band = model_interval(*model, {kelvin, kelvin}, Taken::literally, between);
  return band ? std::optional(band->middle()) : std::nullopt;
}

std::optional<double> Expected::kelvin_of(double ohm) const {
  if (!model || !varies) return std::nullopt;
  // A model need not speak of all temperatures of a part: from what it speaks of, outwards.
  const Interval range = kelvin_range();
  constexpr int steps = 60;
  std::optional<double> before_kelvin, before;
  for (int i = 0; i <= steps; ++i) {
    const double kelvin = range.low + range.width() * i / steps;
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

std::optional<Interval> Expected::service_at(double kelvin) const {
  if (stated) {
    if (!stated_at || !varies) return stated;
    const auto here = nominal_at(kelvin), there = nominal_at(*stated_at);
    if (!there || !here) return std::fabs(kelvin - *stated_at) < 0.5 ? stated : std::nullopt;
    const double factor = *here / *there;
    return Interval{stated->low * factor, stated->high * factor};
  }
  if (!service) return manufacturing_at(kelvin);
  const auto known = nominal_at(kelvin);
  if (!known) return std::nullopt;
  const double nominal = *known;
  if (service->dimension != Dimension::temperature_difference) {
    const double unit = service->relative() ? nominal : 1;
    return Interval{std::max(0.0, nominal - service->minus * unit), nominal + service->plus * unit};
  }
  // Where the model ends, its curve goes on as it does there.
  const auto reads = [&](double offset) {
    if (const auto there = nominal_at(kelvin + offset)) return *there;
    const double step = offset > 0 ? -0.5 : 0.5;
    const auto near = nominal_at(kelvin + step);
    return near && *near > 0 ? nominal * std::pow(nominal / *near, -offset / step) : nominal;
  };
  const double low = reads(-service->minus), high = reads(service->plus);
  return Interval{std::min(low, high), std::max(low, high)};
}

std::vector<std::string> doubts_at(const Expected& expected, Interval kelvin) {
  std::vector<std::string> doubts;
  // Beside a twin of the same curve its doubts cancel.
  if (!expected.model || expected.basis == Limit_basis::twin) return doubts;
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
  if (*model->kind == Model_kind::open || *model->kind == Model_kind::closed) {
    const bool closed = *model->kind == Model_kind::closed;
    set_state(expected, closed, closed ? model->below : model->above, Limit_basis::state);
    return expected;
  }
  expected.model = *with_metal(*model, component);
  if (model->pairs) {
    const bool known = test.probes.size() == 2 && test.probes[0] && test.probes[1];
    const Terminal_pair* pair =
        known ? pair_between(component, *model, *test.probes[0], *test.probes[1]) : nullptr;
    if (pair == nullptr) return std::nullopt;
    expected.model->resistance = pair->resistance;
    expected.model->pairs = {};
  }
  expected.varies = changes_with_temperature(*model);
  set_service(expected, resolved.surroundings);
  if (*model->kind == Model_kind::table)
    for (const Table_row& row : model->rows)
      if (row.at && row_interval(row)) {
        const Interval at = {row.at->si, row.at->si};
        expected.rows_reach = expected.rows_reach ? hull(*expected.rows_reach, at) : at;
      }
  return expected;
}

static std::optional<Expected> limits_of(const Resolved& resolved, const Test& test, bool reversed,
                                         std::string& problem) {
  const Resolved_component* component = test.component ? resolved.component(*test.component) : nullptr;
  if (component == nullptr) {
    problem = "the test names no component of the profile: mend the profile, `ohmlore lint` says where";
    return std::nullopt;
  }
  const Expectation& expect = test.expect;
  if (!expect || !expect.kind) {
    if (test.condition) {
      const auto states = component->get(&Component_type::states);
      const auto* state = states->find(*test.condition);
      if (state != nullptr && state->value) {
        Expected expected;
        expected.component = component;
        const bool closed = *state->value == Contact_state::closed;
        const auto model = component->get(&Component_type::model);
        const bool of_closed = model && model->kind && *model->kind == Model_kind::closed;
        set_state(expected, closed, closed && of_closed ? model->below : Value<Quantity>{},
                  Limit_basis::state);
        return expected;
      }
    }
    if (auto expected = model_expectation(resolved, *component, test)) {
      const Document& document = *resolved.document;
      const bool alone = on_own_contacts(test, *component) || stated(document, test.node, "disconnect_also");
      if (!alone)
        expected->remarks.push_back(
            "the leads are not on the component's own contacts: whatever lies between is "
            "read too");
      return expected;
    }
    problem = fmt::format("nothing says what {} reads here: neither the test (`expect`) nor a model of {}",
                          quoted(component->id), component->part != nullptr ? "its part" : "the component");
    if (const auto part = missing_part(resolved, *component))
      problem =
          part->why == Missing_part::Why::broken
              ? fmt::format("the part {} of {} cannot be used: {} has errors; mend it first",
                            quoted(part->id), component->id, printable(part->broken))
              : fmt::format("the part {} of {} is not found: keep the profile below its corpus.json, or "
                            "name the folder with --root",
                            quoted(part->id), component->id);
    return std::nullopt;
  }

  Expected expected;
  expected.component = component;
  if (auto model = model_expectation(resolved, *component, test)) expected = std::move(*model);
  expected.service = {};
  expected.basis = Limit_basis::expectation;
  const auto at_least = [&](const Value<Quantity>& limit) {
    expected.stated = Interval{limit->si, infinity};
    expected.words = shown_ohm(*expected.stated);
  };
  const auto between = [&](const Value<Quantity>& low, const Value<Quantity>& high) {
    expected.stated = Interval{low ? low->si : 0, high ? high->si : infinity};
    expected.words = shown_ohm(*expected.stated);
  };
  switch (*expect.kind) {
  case Expectation_kind::band: {
    const auto band = expected_interval(expect);
    if (!band) break;
    expected.stated = {std::max(0.0, band->low), band->high};
    expected.words = shown_ohm(*expected.stated);
    if (expect.at && expected.varies) {
      const Interval at = kelvin_interval(*expect.at);
      if (at.width() == 0) expected.stated_at = at.low;
      const auto of_part = expected.manufacturing_at(at.middle());
      const bool in_circuit = !circuits_of(resolved, *component).empty();
      expected.part_of_it = in_circuit || !of_part || !of_part->overlaps(*expected.stated);
    }
    if (!expected.stated_at) {
      if (expected.varies) expected.model = {};
      expected.varies = false;
    }
    break;
  }
  case Expectation_kind::open:
    if (expect.above) set_state(expected, false, expect.above, Limit_basis::expectation);
    break;
  case Expectation_kind::closed:
    if (expect.below) set_state(expected, true, expect.below, Limit_basis::expectation);
    break;
  case Expectation_kind::not_short:
  case Expectation_kind::rises_to_open:
    if (expect.above) at_least(expect.above);
    break;
  case Expectation_kind::smooth_sweep: between(expect.min, expect.max); break;
  case Expectation_kind::both_directions:
    if (reversed)
      between(expect.reverse_min, expect.reverse_max);
    else
      between(expect.min, expect.max);
    break;
  case Expectation_kind::pair: expected.basis = Limit_basis::twin; return expected;
  }
  if (*expect.kind != Expectation_kind::band) expected.varies = false, expected.model = {};
  if (!expected.stated) {
    problem = "the test states no limits that could be read: mend the profile, `ohmlore lint` says where";
    return std::nullopt;
  }
  return expected;
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
