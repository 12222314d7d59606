#include "lint/worked_out.h"

#include <algorithm>

#include "lint/readings.h"

namespace ohmlore {

Subject::Subject(const Document& of, const Resolved& bound)
    : document(of), resolved(bound), worked_out(std::make_unique<Worked_out>()) {
  worked_out->tests.resize(bound.of_tests.size());
  worked_out->readings.resize(bound.components.size());
}
Subject::~Subject() = default;

namespace rules {

Worked_out::Of_test& worked_out(const Subject& subject, const Test& test) {
  return subject.worked_out->tests[subject.profile()->tests.position_of(test)];
}

const std::vector<std::pair<const Quantity_use*, Unit_problem>>& spellings_of(const Subject& subject) {
  auto& spellings = subject.worked_out->spellings;
  if (spellings) return *spellings;
  spellings.emplace();
  for (const Quantity_use& use : subject.document.quantities()) {
    if (use.plain) continue;
    if (auto problem = spelling_problem(subject.document.string(use.node), use.grammar, use.allowed))
      spellings->emplace_back(&use, std::move(*problem));
  }
  return *spellings;
}

const std::optional<Interval>& expected(const Subject& subject, const Test& test, Taken taken) {
  Worked_out::Of_test& known = worked_out(subject, test);
  auto& band = taken == Taken::generously ? known.expected_generously : known.expected;
  if (!band) band = expected_interval(test.expect, taken);
  return *band;
}

const std::optional<Interval>& healthy_readings(const Subject& subject, const Test& test) {
  auto& healthy = worked_out(subject, test).healthy;
  if (!healthy) {
    const auto& kind = test.expect.kind;
    healthy = kind && *kind == Expectation_kind::band ? expected(subject, test, Taken::generously)
                                                      : healthy_readings(test.expect);
  }
  return *healthy;
}

std::size_t tests_of(const Subject& subject, const Resolved_component& component) {
  auto& counts = subject.worked_out->tests_of;
  if (counts.empty()) {
    counts.resize(subject.resolved.components.size());
    for (const Resolved_component* each : subject.resolved.of_tests)
      if (each != nullptr) ++counts[subject.resolved.position_of(*each)];
  }
  return counts[subject.resolved.position_of(component)];
}

const Components_by_words& components_by_words(const Subject& subject) {
  auto& by_words = subject.worked_out->by_words;
  if (!by_words) by_words.emplace(subject.resolved);
  return *by_words;
}

const Wiring& wiring_of(const Subject& subject) {
  auto& wiring = subject.worked_out->wiring;
  if (!wiring) wiring = wiring_of(subject.resolved);
  return *wiring;
}

std::size_t node_of(const Subject& subject, const Value<Contact>& contact) {
  return wiring_of(subject).of_contacts[subject.resolved.number_of(contact)];
}

std::span<const Branch> on_the_way(const Subject& subject, const Test& test) {
  auto& way = worked_out(subject, test).way;
  if (way) return *way;
  Arena& arena = subject.worked_out->arena;
  if (const Branch alone{0, 0, subject.resolved.component_of(test), nullptr};
      lies_alone(subject.resolved, test))
    way = arena.keep<Branch>({&alone, 1});
  else
    way = arena.keep<Branch>(on_the_way(wiring_of(subject), *test.unplug, node_of(subject, test.probes[0]),
                                        node_of(subject, test.probes[1])));
  return *way;
}

bool has_way_past(const Subject& subject, const Test& test) {
  if (!reads_the_wiring(subject.document, test)) return false;
  const std::size_t from = node_of(subject, test.probes[0]), to = node_of(subject, test.probes[1]);
  const auto way = on_the_way(subject, test);
  return way.size() > 1 && std::any_of(way.begin(), way.end(), [&](const Branch& branch) {
           if (branch.component != nullptr) return branch.component->id != *test.component;
           // A component with more than two contacts is itself several, from each to its middle.
           const Resolved_component* part = wiring_of(subject).nodes[branch.b].middle_of;
           if (part != nullptr) return part->id != *test.component;
           // Of two parts that no model has both of one lies there.
           return branch.circuit != nullptr || (branch.a != 0 && branch.b != 0 && !branch.joins(from, to));
         });
}

const Separation& separation_of(const Subject& subject, const Fault& fault) {
  auto& separations = subject.worked_out->separations;
  if (!separations) separations = ohmlore::separations(subject.resolved);
  return (*separations)[subject.profile()->faults.position_of(fault)];
}

const Worked_out::Of_model& rows_of(const Subject& subject, const Resistance_model& model) {
  const auto [entry, is_new] = subject.worked_out->models.try_emplace(model.node);
  if (is_new) {
    entry->second.rows = rows_by_temperature(subject.document, model);
    entry->second.impossible = impossible_ntc_rows(entry->second.rows);
  }
  return entry->second;
}

}
}
