#include "lint/rule.h"

namespace ohmlore::rules {

static void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text id, const Test& test) {
    if (!test.side) return;
    const bool unplugs = stated(subject.document, test, "unplug", test.unplug);
    const bool disconnects = stated(subject.document, test, "disconnect_also", test.disconnect_also);
    switch (*test.side) {
    case Side::at_board_plug:
      if (unplugs) return;
      sink.report(
          test.side.node,
          fmt::format("{} is measured at a withdrawn plug, but withdraws none; name it in `unplug`, else "
                      "the reading goes through the board too",
                      id));
      return;
    case Side::harness:
      if (unplugs && disconnects) return;
      sink.report(
          test.side.node,
          fmt::format("{} measures the wires alone, which takes both ends; name the plug of one end in "
                      "`unplug` and what comes off at the other in `disconnect_also`",
                      id));
      return;
    // A part without a plug is taken off by its leads, which only words can say.
    case Side::at_component:
    case Side::at_inline_connector:
      if (unplugs || disconnects) return;
      sink.report(
          test.side.node,
          fmt::format("{} withdraws nothing: the board stays connected and the reading goes through it; "
                      "name the plug in `unplug`, or say in `disconnect_also` what comes off",
                      id));
      return;
    }
  });
}

extern const Rule plug_not_withdrawn = {
    .family = Family::safety,
    .severity = Severity::warning,
    .summary = "A test measures without withdrawing what lies in parallel.",
    .check = check,
};

}
