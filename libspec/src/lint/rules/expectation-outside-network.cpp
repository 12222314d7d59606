#include <algorithm>

#include "lint/contacts.h"
#include "lint/measured.h"
#include "lint/read.h"
#include "lint/readings.h"
#include "lint/stated_model.h"
#include "lint/wiring.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

std::vector<std::string> names_of(std::span<const Branch> way) {
  std::vector<std::string> names;
  for (const Branch& branch : way) {
    std::string name = branch.circuit != nullptr     ? fmt::format("circuit {}", branch.circuit->id)
                       : branch.component != nullptr ? std::string(branch.component->id)
                                                     : "what else is joined there";
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(std::move(name));
  }
  return names;
}

bool is_alone(std::span<const Branch> way, const Test& test) {
  const Resolved_component* first = way.empty() ? nullptr : way.front().component;
  return way.size() == 1 && first != nullptr && first->id == *test.component;
}

Interval read_between(const Subject& subject, std::span<const Branch> way, const Test& test,
                      const Value<Range>& at) {
  if (way.size() == 1) return ohm_of(subject.resolved, way.front(), at);
  // Nodes are numbered anew, from 1 on: few are on the way.
  std::vector<std::size_t> numbers(wiring_of(subject).nodes.size());
  std::size_t count = 0;
  const auto number = [&](std::size_t node) {
    if (numbers[node] == 0) numbers[node] = ++count;
    return numbers[node] - 1;
  };
  const std::size_t a = number(node_of(subject, test.probes[0])),
                    b = number(node_of(subject, test.probes[1]));
  std::vector<Between> resistors;
  resistors.reserve(way.size());
  for (const Branch& branch : way)
    resistors.push_back({number(branch.a), number(branch.b), ohm_of(subject.resolved, branch, at)});
  return network_resistance(resistors, count, a, b);
}

bool is_bounded(const Resolved_component& component, const Test& test) {
  const auto model = component.get(&Component_type::model);
  return fully_read(*model.document, *model) &&
         bounds_parts(*model, test.expect.at ? kelvin_interval(*test.expect.at) : Interval{0, 0});
}

// A profile may leave out a part that lies in parallel or moves: an error only where all that lies there is
// declared to be linear, and all of it could be read. A part elsewhere may have another temperature than the
// one that is tested.
bool is_sure(const Subject& subject, std::span<const Branch> way, const Test& test) {
  return *test.expect.kind == Expectation_kind::band && subject.document.complete() &&
         std::all_of(way.begin(), way.end(), [&](const Branch& branch) {
           const bool tested = branch.component != nullptr && branch.component->id == *test.component;
           return is_linear(subject.resolved, branch) &&
                  ((tested && test.expect.at) || is_steady(subject.resolved, branch)) &&
                  (branch.component == nullptr || is_bounded(*branch.component, test));
         });
}

void relate(std::span<const Branch> way, Sink& sink) {
  for (const Branch& branch : way) {
    if (branch.circuit != nullptr) sink.relate(branch.circuit->value.node, std::string(branch.circuit->id));
    if (branch.component != nullptr)
      sink.relate(*branch.component->document, branch.component->node, std::string(branch.component->id));
  }
}

// What a part with more than two contacts has between two of them nobody knows (see Wiring); where nothing
// else lies on one of them, that may be any reading.
bool may_read_anything(const Resolved& resolved, const Test& test) {
  const Resolved_component& component = *resolved.component_of(test);
  return component.contacts.size() > 2 && on_own_contacts(test, component) &&
         std::any_of(test.probes.begin(), test.probes.end(),
                     [&](const Value<Contact>& probe) { return resolved.lying_on(probe).size() == 1; });
}

void check_test(const Subject& subject, const Test& test, Sink& sink) {
  const auto& wanted = healthy_readings(subject, test);
  if (!wanted || (wanted->high >= 0 && may_read_anything(subject.resolved, test))) return;
  const bool band = *test.expect.kind == Expectation_kind::band;
  const auto way = on_the_way(subject, test);
  if (way.empty() || way.size() > most_on_the_way) return;
  if (band && is_alone(way, test)) return; // for expectation-outside-model
  const Interval read = read_between(subject, way, test, test.expect.at);
  const bool too_low = wanted->high < read.low;
  const bool too_high = wanted->low > read.high + most_leads;
  if (!too_low && !too_high) return;
  const std::string at =
      test.expect.at ? fmt::format(" at {}", celsius(kelvin_interval(*test.expect.at))) : "";
  const std::string where = fmt::format("{} to {}", text_of(*test.probes[0]), text_of(*test.probes[1]));
  const std::string all = listed(names_of(way));
  const double end = too_low ? read.low : read.high;
  const int digits = digits_apart(end, too_low ? wanted->high : wanted->low);
  // The harness adds to a reading, nobody knows how much.
  const bool sure = too_low && is_sure(subject, way, test);
  sink.report_as(
      sure ? Severity::error : Severity::warning, test.expect.node,
      fmt::format("{} over {} reads {} at {}{}, but the test expects {}; mend the test, the circuit "
                  "or the models",
                  where, all, ohm(end, digits), too_low ? "least" : "most", at,
                  described(test.expect, digits)));
  relate(way, sink);
}

// A temperature of which a model surely speaks.
double kelvin_of(const Resistance_model& model) {
  if (model.at) return kelvin_interval(*model.at).middle();
  for (const Table_row& row : model.rows)
    if (row.at) return row.at->si;
  return zero_celsius + 20;
}

// Without `expect` a test goes by the model of its component alone.
void check_by_model(const Subject& subject, const Test& test, Sink& sink) {
  const auto model = relied_on(subject, test);
  if (!model) return;
  const auto way = on_the_way(subject, test);
  if (way.empty() || way.size() > most_on_the_way || is_alone(way, test)) return;
  const double kelvin = kelvin_of(**model);
  const Adapted_model of_metal = with_metal(**model, *subject.resolved.component_of(test));
  const auto healthy = model_interval(*of_metal, {kelvin, kelvin}, Taken::generously);
  if (!healthy) return;
  const Quantity there = {.si = kelvin, .dimension = Dimension::temperature};
  const Interval read = read_between(subject, way, test, {{there, there, true}, test.node});
  const bool too_low = healthy->high < read.low;
  if (!too_low && healthy->low <= read.high + most_leads) return;
  const auto [seen, alone] = apart(read, *healthy);
  sink.report_as(
      Severity::warning, test.node,
      fmt::format("{} to {} over {} reads {} at {}, but without `expect` the test goes by the model of {} "
                  "alone, {}; give the test an `expect`, or part it from the others",
                  text_of(*test.probes[0]), text_of(*test.probes[1]), listed(names_of(way)), seen,
                  celsius(kelvin), *test.component, alone));
  relate(way, sink);
}

void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text, const Test& test) {
    if (!test.component || !reads_the_wiring(subject.document, test) ||
        subject.resolved.component_of(test) == nullptr)
      return;
    if (test.expect && test.expect.kind)
      check_test(subject, test, sink);
    else
      check_by_model(subject, test, sink);
  });
}

}

extern const Rule expectation_outside_network = {
    .family = Family::network,
    .severity = Severity::error,
    .summary = "A test expects a reading that the parts between its contacts cannot give together.",
    .check = check,
};

}
