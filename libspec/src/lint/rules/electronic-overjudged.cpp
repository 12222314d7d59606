#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

bool holds_electronics(const Resolved_component& component) {
  return component.is(Component_kind::electronic) ||
         (component.is(Component_kind::igniter) &&
          component.has(&Component_type::element, Heater_element::spark));
}

// What a reading through electronics would have to be, to be called healthy; empty where that is asked
// rightly.
std::string_view asked(const Expectation& expect) {
  if (!expect.kind) return "";
  switch (*expect.kind) {
  case Expectation_kind::band: return "a band";
  case Expectation_kind::closed: return "a closed path";
  case Expectation_kind::pair: return "the reading of a twin";
  default: return "";
  }
}

// A dead test shows a short, and an input that no longer takes any charge.
bool can_be_seen(Mode mode) {
  switch (mode) {
  case Mode::open:
  case Mode::short_:
  case Mode::leakage_to_earth:
  case Mode::wet_or_corroded: return true;
  default: return false;
  }
}

void check(const Subject& subject, Sink& sink) {
  each_component_test(subject, [&](Text id, const Test& test, const Resolved_component& component) {
    if (!holds_electronics(component) || !test.side || *test.side == Side::harness) return;
    if (const std::string_view what = asked(test.expect); !what.empty()) {
      sink.report(test.expect.kind.node,
                  fmt::format("{} expects {} of {}, through electronics whose reading depends on the meter's "
                              "voltage and polarity; expect `not_short` or `rises_to_open`",
                              id, what, component.id));
      sink.relate(*component.document, component.node, "the component");
    }
    for (const Value<Mode>& mode : test.excludes)
      if (mode && !can_be_seen(*mode))
        sink.report(mode.node,
                    fmt::format("no dead test of {} excludes {}: of electronics it shows a short or "
                                "a break, no more; leave it out",
                                component.id, word_of(*mode)));
  });
}

}

extern const Rule electronic_overjudged = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A dead test is to judge electronics, of which it shows little.",
    .check = check,
};

}
