#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text, const Test& test) {
    if (!test.positive || !has_both_ends(test.probes)) return;
    if (subject.resolved.pin(*test.positive) == nullptr) return; // pin-undeclared
    if (are_joined(subject.resolved, *test.positive, *test.probes[0]) ||
        are_joined(subject.resolved, *test.positive, *test.probes[1]))
      return;
    sink.report_as(
        // A link that could not be read may join them.
        subject.document.complete() ? Severity::error : Severity::warning, test.positive.node,
        fmt::format("the positive lead goes to {}, but the leads go to {} and {}; name one of the two",
                    text_of(*test.positive), text_of(*test.probes[0]), text_of(*test.probes[1])));
    sink.relate(test.probes.node, "the probes");
  });
}

extern const Rule positive_off_probes = {
    .family = Family::pin,
    .severity = Severity::error,
    .summary = "The positive lead of a test goes to a contact that is not one of its probes.",
    .check = check,
};

}
