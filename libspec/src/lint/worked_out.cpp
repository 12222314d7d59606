#include "lint/worked_out.h"

namespace ohmlore {

Subject::Subject(const Document& of, const Resolved& bound)
    : document(of), resolved(bound), worked_out(std::make_unique<Worked_out>()) {}
Subject::~Subject() = default;

namespace rules {

Worked_out::Of_test& worked_out(const Subject& subject, const Test& test) {
  auto& tests = subject.worked_out->tests;
  if (tests.empty()) tests.resize(subject.profile()->tests.size());
  return tests[position_in(subject.profile()->tests, test)];
}

const Wiring& wiring_of(const Subject& subject) {
  auto& wiring = subject.worked_out->wiring;
  if (!wiring) wiring = wiring_of(subject.resolved);
  return *wiring;
}

const std::vector<Branch>& on_the_way(const Subject& subject, const Test& test) {
  auto& way = worked_out(subject, test).way;
  if (!way) way = on_the_way(wiring_of(subject), *test.unplug, *test.probes[0], *test.probes[1]);
  return *way;
}

const Separation& separation_of(const Subject& subject, const Fault& fault) {
  auto& separations = subject.worked_out->separations;
  if (separations.empty()) separations.resize(subject.profile()->faults.size());
  auto& found = separations[position_in(subject.profile()->faults, fault)];
  if (!found) found = separation(subject.resolved, fault);
  return *found;
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
