#include <algorithm>

#include "lint/measured.h"
#include "lint/read.h"
#include "lint/rows.h"
#include "lint/rule.h"
#include "lint/stated_model.h"
#include "lint/wiring.h"
#include "lint/worked_out.h"

namespace ohmlore::rules {
namespace {

// A table holds at its own temperatures exactly, as far as they were not rounded from °F; between them, and a
// formula, also half a digit beside the written one.
Interval asked(const Resistance_model& model, const Expectation& expect, Interval kelvin) {
  const bool of_fahrenheit = is_rounded_from_fahrenheit(model);
  double most = 0;
  bool at_a_row = false;
  for (const Table_row& row : model.rows) {
    if (!row.at) continue;
    const double off = of_fahrenheit ? off_fahrenheit(*row.at) : 0;
    most = std::max(most, off);
    at_a_row = at_a_row || (kelvin.low == row.at->si && kelvin.high == row.at->si && off == 0);
  }
  if (at_a_row || !expect.at) return kelvin;
  return kelvin_interval(*expect.at, Taken::generously) + Interval{-most, most};
}

// Another prefix would bring one to the other: prefix-suspicious says so.
bool prefix_slipped(Interval band, Interval healthy) {
  for (const double scale : {1e-6, 1e-3, 1e3, 1e6})
    if (Interval{band.low * scale, band.high * scale}.overlaps(healthy)) return true;
  return false;
}

// A current has other ways past the component: expectation-outside-network looks at them together. A
// component with more than two contacts is itself several, from each to its middle.
bool is_one_of_several(const Subject& subject, const Test& test) {
  if (!reads_the_wiring(subject.document, test)) return false;
  const auto way = on_the_way(subject, test);
  const auto& nodes = wiring_of(subject).nodes;
  const std::size_t from = nodes.find(*test.probes[0]), to = nodes.find(*test.probes[1]);
  return way.size() > 1 && std::any_of(way.begin(), way.end(), [&](const Branch& branch) {
           // Of two parts that no model has both of one lies there.
           return !branch.joins(from, to) && nodes[branch.b] != Contact{{}, *test.component};
         });
}

void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text, const Test& test) {
    const auto& m = measured(subject, test);
    const auto at = m ? temperature_for(*m) : std::nullopt;
    if (!at || *m->model->kind == Model_kind::iec_60751 || *m->model->kind == Model_kind::power) return;
    const Between_rows between = between_rows(*m->component);
    const auto healthy =
        model_interval(*m->model, asked(*m->model, test.expect, *at), Taken::generously, between);
    const auto band = expected(subject, test, Taken::generously);
    if (!healthy || !band || band->overlaps(*healthy)) return;
    // The harness can only add to a reading.
    const bool too_low = band->high < healthy->low;
    const bool sure = surely_missed(*m, *band, *healthy) && subject.document.complete() &&
                      fully_read(*m->model_document, *m->model) && bounds_parts(*m->model, *at) &&
                      !(*m->model->kind == Model_kind::beta && !is_bare_ntc(*m->component));
    if (!sure && (prefix_slipped(*band, *healthy) || is_one_of_several(subject, test))) return;
    const auto [asked_for, allowed] =
        apart(*expected(subject, test),
              model_interval(*m->model, *at, Taken::literally, between).value_or(*healthy));
    sink.report_as(
        sure ? Severity::error : Severity::warning, test.expect.node,
        fmt::format(
            "{} is wholly {} what the model of {} allows at {} ({}): {}", asked_for,
            too_low ? "below" : "above", m->component->id, m->kelvin ? celsius(*at) : "any temperature",
            allowed,
            sure
                ? "no healthy part passes; mend the test or the model"
                : "a healthy part hardly passes; mend the test or the model, or state the tolerance, or what "
                  "else the reading goes through"));
    sink.relate(*m->model_document, m->said, "the model");
  });
}

}

extern const Rule expectation_outside_model = {
    .family = Family::band,
    .severity = Severity::error,
    .summary = "A test expects a band that no part within its component's model can read.",
    .check = check,
};

}
