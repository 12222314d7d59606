#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_component_test(subject, [&](Text id, const Test& test, const Resolved_component& component) {
    const Document& document = subject.document;
    if (!component.is(Component_kind::photocell) || !test.side || *test.side == Side::harness) return;
    if (stated(document, test, "condition", test.condition) ||
        stated(document, test, "before", test.before) || stated(document, test, "note", test.note) ||
        stated(document, test, "response", test.response))
      return;
    // To earth, or another path that must not be, light does nothing.
    if (on_own_contacts(test, component))
      sink.report(
          test.node,
          fmt::format("{} reads by the light on it, and {} does not say whether it is covered or lit; say "
                      "so in `before`",
                      component.id, id));
  });
}

extern const Rule light_unstated = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A test of a photocell does not say what light falls on it.",
    .check = check,
};

}
