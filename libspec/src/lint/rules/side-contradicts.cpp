#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

Mounting mounting_of(const Connector& connector) {
  return connector.mounted ? *connector.mounted : Mounting::board;
}

// The side says what kind of connector is withdrawn.
void check_mounting(const Subject& subject, Sink& sink, Text id, const Test& test) {
  const Connector* plug = subject.resolved.connector(*test.unplug);
  if (plug == nullptr || !*plug) return;
  const Mounting mounted = mounting_of(*plug);
  const bool at_board = *test.side == Side::at_board_plug && mounted != Mounting::board;
  const bool inline_ = *test.side == Side::at_inline_connector && mounted != Mounting::inline_;
  if (!at_board && !inline_) return;
  sink.report(test.side.node,
              fmt::format("{} is measured `{}`, but the connector that it withdraws, {}, is mounted {}", id,
                          word_of(*test.side), *test.unplug,
                          mounted == Mounting::board     ? "on the board"
                          : mounted == Mounting::inline_ ? "between two pieces of harness"
                                                         : "on the component"));
  sink.relate(plug->node, fmt::format("connector {}", *test.unplug));
}

// The leads belong on the plug in hand. One of them may go to earth, or to something that is disconnected in
// words.
void check_probes(const Subject& subject, Sink& sink, Text id, const Test& test) {
  if (test.probes.size() != 2 || !test.probes[0] || !test.probes[1]) return;
  const Value<Contact>* away = nullptr;
  std::size_t count = 0;
  for (const Value<Contact>& probe : test.probes) {
    if (probe->connector == *test.unplug) continue;
    away = away ? away : &probe;
    ++count;
  }
  if (count == 0) return;
  if (count == 1) {
    const auto* circuit = subject.resolved.circuit_class(**away);
    if (test.disconnect_also || (circuit != nullptr && **circuit == Circuit_class::protective_earth)) return;
  }
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
    check_mounting(subject, sink, id, test);
    if (*test.side == Side::at_board_plug) check_probes(subject, sink, id, test);
  });
}

}

extern const Rule side_contradicts = {
    .family = Family::safety,
    .severity = Severity::warning,
    .summary = "The side of a test contradicts the plug that it withdraws, or its contacts.",
    .check = check,
};

}
