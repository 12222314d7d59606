#include <algorithm>
#include <span>
#include <utility>
#include <vector>

#include "lint/b_values.h"
#include "lint/measured.h"
#include "lint/read.h"
#include "lint/readings.h"
#include "lint/rows.h"
#include "lint/rule.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// What one test asks of a thermistor.
struct Asked {
  Text id;
  const Test* test = nullptr;
  Gate gate;  // of the thermistor alone
  Gate whole; // with what is the same at every reading, in series or in parallel
  bool noted = false;
  bool with_board = false; // which may lie in parallel
};

// Two that cannot both be passed, and what proves it.
struct Clash {
  Ntc_clash why = Ntc_clash::none;
  Gate one, other;
};

// Both look into one harness, or have one board beside the sensor.
bool with_the_same(const Asked& one, const Asked& other) {
  const Test &a = *one.test, &b = *other.test;
  if (*a.side != *b.side) return false;
  if (one.with_board || other.with_board) return one.with_board && other.with_board;
  return *a.side != Side::at_component && a.unplug && b.unplug && *a.unplug == *b.unplug;
}

// With s >= 0 in series in both, R + s rises only where R does, and (R1 + s) / (R2 + s) <= R1 / R2 for
// R1 > R2: s flattens, and so does whatever is in parallel.
Clash clash_of(const Asked& one, const Asked& other) {
  const Clash alone = {ntc_clash(one.gate, other.gate), one.gate, other.gate};
  if (alone.why != Ntc_clash::none || !with_the_same(one, other)) return alone;
  const Ntc_clash why = ntc_clash(one.whole, other.whole);
  if (why != Ntc_clash::rises && why != Ntc_clash::b_too_high) return alone;
  return {why, one.whole, other.whole};
}

std::string described(const Asked& asked) {
  const Expectation& expect = asked.test->expect;
  return fmt::format("{} expects {} at {}", asked.id, ohm(*expected_interval(expect)),
                     celsius(kelvin_interval(*expect.at)));
}

// Empty where the test need not show the thermistor, alone or with a board, and where it misses what the
// model has at that temperature already: expectation-outside-model says so.
std::optional<Asked> asked_of(const Subject& subject, Text id, const Test& test) {
  const Resolved_component* component = subject.resolved.component_of(test);
  if (component == nullptr || !is_bare_ntc(*component) || !fully_read(subject.document, test)) return {};
  const auto& across = band_across(subject, test);
  if (!across || !(across->alone || across->with_board) || !test.expect.at ||
      !fully_read(subject.document, test.expect))
    return {};
  const auto band = expected(subject, test, Taken::generously);
  const Interval kelvin = kelvin_interval(*test.expect.at, Taken::generously);
  if (!band || !(band->high > 0) || !(kelvin.low > 0)) return {};
  Interval healthy = passing(*across, *band);
  if (across->with_board) healthy.high = infinity;
  if (const auto& m = measured(subject, test)) {
    const auto allowed = [&](Interval at, Taken taken) {
      return model_interval(*m->model, at, taken, Between_rows::thermistor);
    };
    const Interval written = kelvin_interval(*test.expect.at);
    const auto literally = allowed(written, Taken::literally);
    if (!literally || !literally->overlaps(healthy)) { // few do not
      const auto generously = allowed(temperatures_asked(*m->model, test.expect, written), Taken::generously);
      if (generously && !generously->overlaps(healthy)) return {};
    }
  }
  Band_across contact_only = *across; // of what is in series, that alone differs from reading to reading
  contact_only.on_the_part = true;
  return Asked{id,
               &test,
               thermistor_gate(kelvin, healthy),
               thermistor_gate(kelvin, passing(contact_only, *band)),
               across->noted,
               across->with_board};
}

std::string reason(Ntc_clash clash, const Gate& one, const Gate& other) {
  if (clash == Ntc_clash::rises) return "the resistance of an NTC falls as it gets warmer";
  const bool low = clash == Ntc_clash::b_too_low;
  const Interval b = b_of(one, other);
  return fmt::format("between the two B would be {} {}, and that of an NTC lies between {} and {}{}",
                     beyond_limits(low ? b.high : b.low), low ? "at most" : "at least",
                     kelvin(possible_b.low), kelvin(possible_b.high),
                     low ? " where no resistor sits inside (else say `linearised`)" : "");
}

// Against other tests of the same sensor. Whether one of them surely proves it.
bool check_tests(Sink& sink, const std::vector<Asked>& tests, const std::vector<bool>& blamed,
                 std::size_t i) {
  const Asked& asked = tests[i];
  const auto clashes = [&](std::size_t j) { return clash_of(asked, tests[j]).why != Ntc_clash::none; };
  const auto noted_alike = [&](std::size_t j) { return same_note(*asked.test, *tests[j].test); };
  const auto is_sure = [&](std::size_t j) {
    return noted_alike(j) && !asked.with_board && !tests[j].with_board;
  };
  // Rather one that must be of the same sensor, alone, and rather one that is not blamed itself.
  const auto rank = [&](std::size_t j) { return std::pair<bool, bool>(!is_sure(j), blamed[j]); };
  const auto near = nearest_rows(tests.size(), i, tests.size(), clashes);
  const std::size_t witness = *std::min_element(
      near.begin(), near.end(), [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
  std::vector<Contradiction> against;
  const auto add = [&](std::size_t j) {
    against.push_back(
        {is_sure(j) ? Severity::error : Severity::warning, tests[j].id, tests[j].test->expect.node, j});
  };
  add(witness);
  for (std::size_t j = 0; j < tests.size(); ++j)
    if (j != witness && clashes(j)) add(j);
  const auto say = [&](std::size_t j) {
    const Clash found = clash_of(asked, tests[j]);
    return fmt::format("{}, and {}: {}, so that no sensor passes both; correct a band or a temperature{}",
                       described(asked), described(tests[j]), reason(found.why, found.one, found.other),
                       is_sure(j)       ? ""
                       : noted_alike(j) ? or_withdraw
                                        : ", unless their notes are of two sensors");
  };
  report_contradictions(sink, asked.test->expect.node, std::move(against), "the expectation of {}", say);
  return is_sure(witness);
}

void check_rows(Sink& sink, const Asked& asked, const Resolved_component& component,
                std::span<const Row> rows) {
  const auto is_sure = [&](const Row& row) {
    return !asked.noted && !asked.with_board && (row.row->tolerance || (row.row->min && row.row->max));
  };
  const Row* against = nullptr; // rather one that is sure
  for (const Row& row : rows)
    if ((against == nullptr || (is_sure(row) && !is_sure(*against))) &&
        ntc_clash(asked.gate, row.gate) != Ntc_clash::none)
      against = &row;
  if (against == nullptr) return;
  sink.report_as(is_sure(*against) ? Severity::error : Severity::warning, asked.test->expect.node,
                 fmt::format("{}, and the table of {} has {} at {}: {}, so that no sensor of that table "
                             "passes; correct the band, its temperature or the table",
                             described(asked), component.id, ohm(*row_interval(*against->row)),
                             celsius(against->row->at->si),
                             reason(ntc_clash(asked.gate, against->gate), asked.gate, against->gate)));
  sink.relate(*component.get(&Component_type::model).document, against->row->node, "the row");
}

void check_sensor(const Subject& subject, Sink& sink, const Resolved_component& component,
                  const std::vector<Asked>& tests) {
  const auto blamed = blamed_rows(tests.size(), [&](std::size_t i, std::size_t j) {
    return clash_of(tests[i], tests[j]).why != Ntc_clash::none;
  });
  const auto model = component.get(&Component_type::model);
  std::vector<Row> of_part;
  std::span<const Row> rows;
  // Of several sensors in one body nobody knows which one the table is.
  if (model && model->kind && component.contacts.size() == 2)
    rows = model.document == &subject.document ? rows_of(subject, *model).rows
                                               : (of_part = rows_by_temperature(*model.document, *model));
  for (std::size_t i = 0; i < tests.size(); ++i)
    if (!blamed[i] || !check_tests(sink, tests, blamed, i)) check_rows(sink, tests[i], component, rows);
}

void check(const Subject& subject, Sink& sink) {
  // Two sensors may share a body.
  Together<Asked> together;
  each_test(subject, [&](Text id, const Test& test) {
    if (auto asked = asked_of(subject, id, test)) together.add(std::move(*asked));
  });
  for (const std::vector<Asked>& tests : together)
    check_sensor(subject, sink, *subject.resolved.component(*tests.front().test->component), tests);
}

}

extern const Rule ntc_tests_impossible = {
    .family = Family::ntc,
    .severity = Severity::error,
    .summary = "Tests of one bare NTC expect bands that no thermistor passes together.",
    .check = check,
    .goes_by_order = true,
};

}
