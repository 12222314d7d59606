// One part has one resistance at each temperature: what several tests leave of its few parameters must have
// something in common.
#include <algorithm>

#include "lint/measured.h"
#include "lint/read.h"
#include "lint/readings.h"
#include "lint/rows.h"
#include "lint/rule.h"
#include "lint/stated_model.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// No note may tell the two apart, nor a board that only one of them is read with.
bool surely_of_one_part(const Test& a, const Test& b) {
  return same_note(a, b) && bool(a.unplug) == bool(b.unplug);
}

// One test beside its component's model, which it does not miss by itself.
struct Asked {
  Text id;
  const Test* test = nullptr;
  Measured measured;
  Interval kelvin, ohm; // as wide as they can be meant
};

std::string described(const Asked& asked) {
  return fmt::format("{} expects {}{}", asked.id, ohm(*expected_interval(asked.test->expect)),
                     asked.measured.kelvin ? fmt::format(" at {}", celsius(*asked.measured.kelvin)) : "");
}

bool proves_anything(const Subject& subject, const Measured& m, const Test& test) {
  return (m.alone || m.with_board) && fully_read(subject.document, test) &&
         fully_read(subject.document, test.expect) && fully_read(*m.model_document, *m.model);
}

// Of a thermistor with one B a single test may contradict; what has one parameter takes two.
bool may_contradict(const Subject& subject, const Measured& m) {
  switch (*m.model->kind) {
  case Model_kind::beta: return is_bare_ntc(*m.component);
  case Model_kind::power:
  case Model_kind::copper:
  case Model_kind::fixed:
  case Model_kind::polynomial: return tests_of(subject, *m.component) > 1;
  default: return false;
  }
}

std::optional<Asked> asked_of(const Subject& subject, Text id, const Test& test) {
  const auto& m = measured(subject, test);
  if (!m || !may_contradict(subject, *m)) return std::nullopt;
  const auto at = temperature_for(*m);
  if (!at || !proves_anything(subject, *m, test)) return std::nullopt;
  const auto band = expected(subject, test, Taken::generously);
  const Interval kelvin = test.expect.at ? kelvin_interval(*test.expect.at, Taken::generously) : *at;
  if (!band || !(band->high > 0) || !(kelvin.low > 0)) return std::nullopt;
  const Interval ohm = passing(*m, *band);
  const auto allowed = model_interval(*m->model, kelvin, Taken::generously);
  if (!allowed || !allowed->overlaps(ohm)) return std::nullopt;
  return Asked{id, &test, *m, kelvin, ohm};
}

// ---- a thermistor with one B: ln R over 1/T is a line, but for the drift of B

// The gate for the line of a model: B of the part between `at` and there is the stated one ± its departure.
Gate gate_of_line(const Resistance_model& model, Interval kelvin, Interval ohm) {
  Gate gate = thermistor_gate(kelvin, ohm);
  const Interval reference = thermistor_gate(kelvin_interval(*model.at), {1, 1}).x;
  gate.y = gate.y + b_departure(model, kelvin) * (gate.x - reference);
  return gate;
}

// What the line must pass, and as it is written where a model says it.
struct Line_gate {
  Gate gate;
  std::string_view whose; // empty: a test's
  Interval kelvin, ohm;
};

// What the part's model adds to the component's own, where it has both.
void add_gates_of_part(const Resolved_component& component, const Resistance_model& model,
                       std::vector<Line_gate>& gates) {
  if (component.part == nullptr || !component.own->model) return;
  const Resistance_model& part = *component.part->part()->component.model;
  if (!part || !part.kind || !fully_read(*component.part, part)) return;
  constexpr std::string_view whose = "the model of its part";
  if (*part.kind == Model_kind::beta && part.resistance && part.at) {
    const Interval kelvin = kelvin_interval(*part.at);
    const Interval ohm = toleranced_interval(*part.resistance, part.tolerance, Taken::generously);
    if (ohm.low > 0)
      gates.push_back({gate_of_line(model, kelvin, ohm), whose, kelvin,
                       toleranced_interval(*part.resistance, part.tolerance)});
  }
  for (const Row& row : rows_by_temperature(*component.part, part))
    gates.push_back({gate_of_line(model, written_interval(*row.row->at), row.ohm),
                     whose,
                     {row.row->at->si, row.row->at->si},
                     *row_interval(*row.row)});
}

// A nominal or B without a tolerance may be off by more than its last digit.
bool is_bounded(const Resolved_component& component, const Resistance_model& model) {
  if (!model.tolerance || !model.b_tolerance) return false;
  if (component.part == nullptr || !component.own->model) return true;
  const Resistance_model& part = *component.part->part()->component.model;
  return !part || !part.kind || states_tolerances(part);
}

// What two gates leave to a line between or beyond them at a third one.
Interval on_line(const Gate& left, const Gate& right, Interval x) {
  return exp((left.y * (right.x - x) + right.y * (x - left.x)) / (right.x - left.x));
}

// A note may say that its test is of another part than the model.
bool noted(const std::vector<Asked>& tests) {
  return std::any_of(tests.begin(), tests.end(), [](const Asked& asked) { return asked.measured.noted; });
}

bool with_board(const std::vector<Asked>& tests) {
  return std::any_of(tests.begin(), tests.end(),
                     [](const Asked& asked) { return asked.measured.with_board; });
}

// Which test it was reported at, as of the others; null: nothing was found.
const Asked* check_beta(Sink& sink, const Resolved_component& component, const std::vector<Asked>& tests) {
  const Measured& m = tests.front().measured;
  const Resistance_model& model = *m.model;
  if (!model.resistance || !model.at || !model.b_value) return nullptr;
  const Interval r = toleranced_interval(*model.resistance, model.tolerance, Taken::generously);
  const Interval b = toleranced_interval(*model.b_value, model.b_tolerance, Taken::generously);
  if (!(r.low > 0) || !(b.low > 0)) return nullptr;
  std::vector<Line_gate> lines;
  for (const Asked& asked : tests)
    lines.push_back({gate_of_line(model, asked.kelvin, asked.ohm), {}, asked.kelvin, asked.ohm});
  lines.push_back({thermistor_gate(kelvin_interval(*model.at), r), "its model", kelvin_interval(*model.at),
                   toleranced_interval(*model.resistance, model.tolerance)});
  add_gates_of_part(component, model, lines);
  std::vector<Gate> gates;
  for (const Line_gate& line : lines) gates.push_back(line.gate);
  const auto witness = impossible_line(gates, b);
  if (!witness) return nullptr;
  const Asked* last = nullptr;
  std::vector<std::string> bands;
  for (const std::size_t i : *witness) {
    if (i < tests.size() && (last == nullptr || &tests[i] > last)) last = &tests[i];
    bands.push_back(i < tests.size() ? described(tests[i])
                                     : fmt::format("{} has {} at {}", lines[i].whose, ohm(lines[i].ohm),
                                                   celsius(lines[i].kelvin)));
  }
  if (last == nullptr) return nullptr; // the two models exclude each other: part-narrowed-outside
  std::string why;
  if (witness->size() == 2) {
    const Interval needed = b_of(gates[(*witness)[0]], gates[(*witness)[1]]);
    why = fmt::format("B would be {} {}", needed.low > b.high ? "at least" : "at most",
                      kelvin(needed.low > b.high ? needed.low : needed.high));
  } else {
    const Gate& middle = gates[(*witness)[1]];
    why = fmt::format("the first and the last of the three leave {} to the middle one",
                      ohm(on_line(gates[(*witness)[0]], gates[(*witness)[2]], middle.x)));
  }
  sink.report_as(is_bounded(component, model) && !noted(tests) && !with_board(tests) ? Severity::error
                                                                                     : Severity::warning,
                 last->test->expect.node,
                 fmt::format("no sensor within the model of {} (B {} to {}) passes this: {}: {}, even if B "
                             "drifts by {:g} K per kelvin; correct a band, a temperature or a model{}",
                             component.id, kelvin(b.low), kelvin(b.high), listed(bands), why, b_drift.high,
                             with_board(tests) ? or_withdraw : ""));
  sink.relate(*m.model_document, m.said, "the model");
  return last;
}

// ---- parts with one parameter: the resistance, at 20 °C for copper, at 0 °C for R0

// What the model makes of one ohm; empty where it has more parameters than one.
std::optional<Interval> factor(Resistance_model model, Interval kelvin) {
  constexpr Interval cold_wire = {0.9, 1}; // cold beside hot; common practice, no source
  const Value<Quantity> one_ohm = {{.si = 1}, model.node};
  const Value<Range> at_20 = {{.low = {.si = zero_celsius + 20}, .high = {.si = zero_celsius + 20}},
                              model.node};
  switch (*model.kind) {
  case Model_kind::power: return cold_wire;
  case Model_kind::copper: model.at = at_20; [[fallthrough]];
  case Model_kind::fixed: model.resistance = one_ohm; break;
  case Model_kind::polynomial: model.r0 = one_ohm; break;
  default: return std::nullopt;
  }
  model.tolerance = {};
  const auto found = model_interval(model, kelvin, Taken::generously);
  return found && found->low > 0 ? found : std::nullopt;
}

const Asked* check_one_parameter(Sink& sink, const Resolved_component& component,
                                 const std::vector<Asked>& tests) {
  std::vector<Interval> values, factors;
  for (const Asked& asked : tests) {
    const auto per_ohm = factor(*asked.measured.model, asked.kelvin);
    if (!per_ohm) return nullptr;
    factors.push_back(*per_ohm);
    values.push_back(asked.ohm / *per_ohm);
  }
  const auto clash = impossible_value(values);
  if (!clash) return nullptr;
  const auto [later, earlier] = std::minmax(clash->first, clash->second, std::greater<>());
  const Asked &one = tests[earlier], &other = tests[later];
  if (one.kelvin.overlaps(other.kelvin)) return nullptr; // expectations-contradict
  const bool certain = *one.measured.model->kind == Model_kind::copper && is_metal_alone(component) &&
                       surely_of_one_part(*one.test, *other.test) && !one.measured.with_board;
  sink.report_as(certain ? Severity::error : Severity::warning, other.test->expect.node,
                 fmt::format("{}, and {}: by the model of {} a part that passes the first reads {} at {}, so "
                             "that none passes both; correct a band or a temperature{}",
                             described(one), described(other), component.id,
                             ohm(values[earlier] * factors[later]),
                             celsius(other.measured.kelvin.value_or(other.kelvin)),
                             one.measured.with_board || other.measured.with_board ? or_withdraw : ""));
  sink.relate(one.test->expect.node, fmt::format("the expectation of {}", one.id));
  return &other;
}

const Asked* check_once(Sink& sink, const std::vector<Asked>& tests) {
  if (tests.empty()) return nullptr;
  const Resolved_component& component = *tests.front().measured.component;
  if (*tests.front().measured.model->kind != Model_kind::beta)
    return tests.size() > 1 ? check_one_parameter(sink, component, tests) : nullptr;
  return is_bare_ntc(component) ? check_beta(sink, component, tests) : nullptr;
}

// Then without the test that was told, so that a baseline that knows it does not hide another. All of them
// may come of one that is wrong.
bool check_together(Sink& sink, const std::vector<Asked>& tests) {
  const Asked* at = check_once(sink, tests);
  if (at == nullptr) return false;
  constexpr std::size_t most = 20; // more than a component has, but not all of a document made to harm
  std::vector<Asked> left = tests;
  std::size_t told = 1;
  for (auto index = at - tests.data(); told < most; ++told) {
    left.erase(left.begin() + index);
    at = check_once(sink, left);
    if (at == nullptr) break;
    index = at - left.data();
  }
  if (told > 1) sink.tell_the_worst(told);
  return true;
}

void check(const Subject& subject, Sink& sink) {
  Together<Asked> together;
  each_test(subject, [&](Text id, const Test& test) {
    if (auto asked = asked_of(subject, id, test)) together.add(std::move(*asked));
  });
  for (const std::vector<Asked>& tests : together) {
    Together<Asked, surely_of_one_part> of_one_part;
    for (const Asked& asked : tests) of_one_part.add(asked);
    bool found = false;
    for (const std::vector<Asked>& alike : of_one_part) found = check_together(sink, alike) || found;
    if (!found && of_one_part.end() - of_one_part.begin() > 1) check_together(sink, tests);
  }
}

}

extern const Rule no_part_passes_all_tests = {
    .family = Family::band,
    .severity = Severity::warning,
    .summary = "No part within its component's model passes all of its tests.",
    .check = check,
    .goes_by_order = true,
};

}
