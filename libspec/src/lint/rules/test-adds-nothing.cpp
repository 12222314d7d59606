#include <algorithm>

#include "lint/contacts.h"
#include "lint/readings.h"
#include "lint/rule.h"
#include "lint/worked_out.h"
#include "ohmlore/separation.h"

namespace ohmlore::rules {
namespace {

// Where the fault names a test first.
Node_id named_at(const Fault& fault, Text test) {
  for (const Suspect& suspect : fault.suspects)
    for (const Value<Text>& id : suspect.decided_by)
      if (id && *id == test) return id.node;
  return fault.node;
}

// Not a row without modes, of which nothing is known: all that the test may see is known.
bool is_clear(const Separation& matrix, std::size_t column) {
  return std::all_of(matrix.rows.begin(), matrix.rows.end(),
                     [&](const Suspected_mode& row) { return row.cells[column].outcome != Outcome::either; });
}

bool is_blind(const Separation& matrix, std::size_t column) {
  return std::all_of(matrix.rows.begin(), matrix.rows.end(),
                     [&](const Suspected_mode& row) { return row.cells[column].outcome == Outcome::passes; });
}

bool is_same(const Separation& matrix, std::size_t a, std::size_t b) {
  return std::all_of(matrix.rows.begin(), matrix.rows.end(),
                     [&](const Suspected_mode& row) { return row.cells[a] == row.cells[b]; });
}

// One copied from the other, whatever a part with several paths shows there: both go by the model. Where
// anything could not be read, it may be what tells them apart.
bool is_copy(const Document& document, const Test& a, const Test& b) {
  const auto plain = [&](const Test& test) {
    return test.component && test.side && test.unplug && !stated(document, test, "expect", test.expect) &&
           !stated(document, test, "response", test.response);
  };
  return document.complete() && plain(a) && plain(b) && *a.component == *b.component && *a.side == *b.side &&
         *a.unplug == *b.unplug && same_ends(a.probes, b.probes) && *a.positive == *b.positive &&
         same_preparation(a, b) && same_note(a, b);
}

void check(const Subject& subject, Sink& sink) {
  each_fault(subject, [&](Text, const Fault& fault) {
    const Separation& matrix = separation_of(subject, fault);
    for (std::size_t i = 0; i < matrix.tests.size(); ++i) {
      const Text id = matrix.tests[i].id;
      if (is_blind(matrix, i)) {
        sink.report(
            named_at(fault, id),
            fmt::format(
                "{} passes whichever suspect has failed; leave it out, or name the mode that it is to "
                "show",
                id));
        sink.relate(matrix.tests[i].test->node, "the test");
        continue;
      }
      for (std::size_t j = 0; j < i; ++j) {
        const bool copied = is_copy(subject.document, *matrix.tests[i].test, *matrix.tests[j].test);
        if (!copied && !(is_clear(matrix, i) && is_clear(matrix, j) && is_same(matrix, i, j))) continue;
        const Text other = matrix.tests[j].id;
        sink.report(
            named_at(fault, id),
            copied
                ? fmt::format("{} reads the same part as {} between the same contacts; leave one out, or "
                              "mend the probes of one",
                              id, other)
                : fmt::format("{} passes and fails with {} in every suspected mode; leave one out, or name "
                              "the suspect or mode that only one of them sees",
                              id, other));
        sink.relate(matrix.tests[i].test->node, "the test");
        break;
      }
    }
  });
}

}

extern const Rule test_adds_nothing = {
    .family = Family::fault,
    .severity = Severity::note,
    .summary = "A fault names a test that shows nothing of its suspects that the others do not.",
    .check = check,
    .goes_by_absence = true,
};

}
