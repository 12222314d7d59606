#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

bool mounted(const Connector* connector, Mounting where) {
  return connector != nullptr && *connector &&
         (connector->mounted ? *connector->mounted : Mounting::board) == where;
}

void check_board_plug(const Subject& subject, Sink& sink, Text id, const Test& test) {
  const Connector* plug = subject.resolved.connector(*test.unplug);
  const bool between = mounted(plug, Mounting::inline_);
  if (!between && !mounted(plug, Mounting::component)) return;
  sink.report(
      test.side.node,
      fmt::format("{} is measured `at_board_plug`, but {}, which it withdraws, is mounted {}; withdraw "
                  "the plug on the board, or say `{}`",
                  id, *test.unplug, between ? "between two pieces of harness" : "on the component",
                  word_of(between ? Side::at_inline_connector : Side::at_component)));
  sink.relate(plug->node, fmt::format("connector {}", *test.unplug));
}

// The plug of the board may be withdrawn as well: either it or a lead goes to a connector between.
void check_inline(const Subject& subject, Sink& sink, Text id, const Test& test) {
  const auto may_be_inline = [&](Text connector) {
    const Connector* plug = subject.resolved.connector(connector);
    return plug == nullptr || mounted(plug, Mounting::inline_);
  };
  bool any = may_be_inline(*test.unplug);
  for (const Value<Contact>& probe : test.probes) any = any || !probe || may_be_inline(probe->connector);
  if (!any)
    sink.report(test.side.node,
                fmt::format("{} is measured `at_inline_connector`, but neither the plug that it "
                            "withdraws, {}, nor its contacts are on a connector that is mounted "
                            "`inline`; correct the side, or `mounted`",
                            id, *test.unplug));
}

// The leads belong on the plug in hand. One of them may go to earth, or to something that is disconnected in
// words.
void check_probes(const Subject& subject, Sink& sink, Text id, const Test& test) {
  if (test.probes.size() != 2 || !test.probes[0] || !test.probes[1]) return;
  const Value<Contact>* away = nullptr;
  std::size_t count = 0;
  const auto is_there = [&](Text connector) { return subject.resolved.connector(connector) != nullptr; };
  for (const Value<Contact>& probe : test.probes) {
    if (probe->connector == *test.unplug) continue;
    // Else pin-undeclared, reference-dangling say so.
    if (!is_there(probe->connector) || !is_there(*test.unplug)) return;
    away = away ? away : &probe;
    ++count;
  }
  if (count == 0) return;
  if (count == 1 && (test.disconnect_also || is_protective_earth(subject.resolved, *away))) return;
  sink.report(
      away->node,
      fmt::format("{} withdraws {}, but puts {} on {}; withdraw the plug that the leads go to, or name "
                  "it in `disconnect_also`",
                  id, *test.unplug, count == 2 ? "both leads elsewhere, one" : "a lead", text_of(**away)));
  sink.relate(test.unplug.node, "the plug that is withdrawn");
}

void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text id, const Test& test) {
    if (!test.side || !test.unplug) return;
    if (*test.side == Side::at_board_plug) {
      check_board_plug(subject, sink, id, test);
      check_probes(subject, sink, id, test);
    } else if (*test.side == Side::at_inline_connector) {
      check_inline(subject, sink, id, test);
    }
  });
}

}

extern const Rule side_contradicts = {
    .family = Family::safety,
    .severity = Severity::warning,
    .summary = "The side of a test contradicts the plug that it withdraws, or its contacts.",
    .check = check,
    .goes_by_absence = true,
};

}
