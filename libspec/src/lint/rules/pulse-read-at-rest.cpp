#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_component_test(subject, [&](Text id, const Test& test, const Resolved_component& component) {
    const auto pulse = component.get(&Component_type::pulse);
    const bool state = test.expect.kind && (*test.expect.kind == Expectation_kind::open ||
                                            *test.expect.kind == Expectation_kind::closed);
    if (!component.is(Component_kind::switch_) || !pulse || !**pulse || !state || !test.side ||
        *test.side == Side::harness)
      return;
    const Document& document = subject.document;
    if (stated(document, test, "response", test.response) || stated(document, test, "before", test.before))
      return;
    if (!on_own_contacts(test, component)) return; // to earth the magnet changes nothing
    sink.report(
        test.expect.kind.node,
        fmt::format("{} expects {} to be {}, but where its magnet happens to rest decides that; expect "
                    "the `response` `toggles_with_magnet`, or say in `before` how it is turned",
                    id, component.id, word_of(*test.expect.kind)));
    sink.relate(*component.document, component.node, "the pulsing contact");
  });
}

extern const Rule pulse_read_at_rest = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A pulsing reed contact is expected to rest in one state.",
    .check = check,
};

}
