#include "lint/contacts.h"
#include "lint/measured.h"
#include "lint/read.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

struct Stated_test {
  Text id;
  const Test* test = nullptr;
  Interval readings;
  std::pair<std::size_t, std::size_t> ends; // numbers of its two contacts, the lower first
};

bool same_polarity(const Test& a, const Test& b) {
  if (a.positive || b.positive) return a.positive && b.positive && *a.positive == *b.positive;
  return *a.probes[0] == *b.probes[0];
}

// Parts that read the same whenever they are healthy, at one temperature: nothing in them moves, charges,
// sees light or trips, or differs from model to model.
bool has_one_reading(const Resolved_component& component) {
  switch (component.kind()) {
  case Component_kind::ntc:
  case Component_kind::rtd:
  case Component_kind::resistor: return true;
  case Component_kind::coding: return false; // another one in each model
  default: return is_declared_resistive(component);
  }
}

// Parts that change state with more than a condition can say, so that two readings are no contradiction.
bool changes_by_itself(const Resolved_component& component) {
  const auto pulse = component.get(&Component_type::pulse);
  return component.is(Component_kind::photocell) || component.is(Component_kind::potentiometer) ||
         (pulse ? **pulse : component.is(Component_kind::switch_) && component.lacks_part());
}

// The severity of two disjoint expectations; off where they are honest.
Severity severity_of(const Subject& subject, const Test& a, const Test& b) {
  const int bands = (*a.expect.kind == Expectation_kind::band) + (*b.expect.kind == Expectation_kind::band);
  if (bands == 2 && !same_temperature(a, b)) return Severity::off;
  if (!same_preparation(a, b)) return Severity::off;
  const Resolved_component *component = subject.resolved.component(*a.component),
                           *other = subject.resolved.component(*b.component);
  if (component == nullptr || other == nullptr || changes_by_itself(*component) ||
      changes_by_itself(*other) || never_together(component->placed->when, other->placed->when))
    return Severity::off;
  if (*a.component != *b.component) return *a.side == *b.side ? Severity::warning : Severity::off;
  if (*a.side != *b.side) {
    // The wires alone read otherwise than what hangs on them; so does a part inside a circuit.
    const bool comparable = *a.side != Side::harness && *b.side != Side::harness &&
                            circuits_of(subject.resolved, *a.component).empty();
    return comparable ? Severity::warning : Severity::off;
  }
  const bool resistive = has_one_reading(*component);
  if (!resistive && !same_polarity(a, b)) return Severity::off; // two ways round, as a diode shows
  // A band beside a test for an open or closed path: the latter states no temperature.
  const bool comparable = bands == 0 || (bands == 2 && temperature_of(a));
  const bool certain =
      resistive && comparable && *a.side != Side::harness && same_note(a, b) && subject.document.complete();
  return certain ? Severity::error : Severity::warning;
}

void check(const Subject& subject, Sink& sink) {
  std::vector<Stated_test> tests;
  tests.reserve(subject.resolved.of_tests.size());
  each_test(subject, [&](Text id, const Test& test) {
    if (!test.component || !test.side || !has_both_ends(test.probes) || !test.expect ||
        !fully_read(subject.document, test))
      return;
    const auto readings = healthy_readings(subject, test);
    if (!readings) return;
    const std::pair ends =
        std::minmax({subject.resolved.number_of(test.probes[0]), subject.resolved.number_of(test.probes[1])});
    std::vector<Contradiction> against;
    for (std::size_t i = 0; i < tests.size(); ++i) {
      const Stated_test& earlier = tests[i];
      if (earlier.ends != ends || earlier.readings.overlaps(*readings)) continue;
      const Severity severity = severity_of(subject, *earlier.test, test);
      if (severity != Severity::off) against.push_back({severity, earlier.id, earlier.test->expect.node, i});
    }
    const auto say = [&](std::size_t i) {
      const Stated_test& earlier = tests[i];
      const int digits = digits_apart(*readings, earlier.readings);
      const bool components_differ = *earlier.test->component != *test.component;
      return fmt::format("{} expects {} between {} and {}, {} expects {} there{}; {}", id,
                         described(test.expect, digits), text_of(*test.probes[0]), text_of(*test.probes[1]),
                         earlier.id, described(earlier.test->expect, digits),
                         *earlier.test->side == *test.side ? " in the same state" : " from another side",
                         components_differ ? "correct the probes of one, or say what must be disconnected"
                                           : "correct one, or say in `condition` or `before` what differs");
    };
    report_contradictions(sink, test.expect.node, std::move(against), "the expectation of {}", say);
    tests.push_back({id, &test, *readings, ends});
  });
}

}

extern const Rule expectations_contradict = {
    .family = Family::pin,
    .severity = Severity::error,
    .summary = "Two tests of the same two contacts expect readings that exclude each other.",
    .check = check,
    .goes_by_order = true,
};

}
