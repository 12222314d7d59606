#include "lint/contacts.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

using enum Component_kind;

enum class Verdict : std::uint8_t { possible, unlikely, impossible };

struct Answer {
  Verdict verdict = Verdict::possible;
  std::string_view why;
};

constexpr std::string_view no_capacitor = "nothing in it charges from the meter";
constexpr std::string_view no_slider = "nothing in it slides";

Answer when_cooler_reads_more(const Resolved_component& component) {
  switch (component.kind()) {
  case rtd: return {Verdict::impossible, "the resistance of a metal rises as it gets warmer"};
  case ptc:
    return {component.has(&Component_type::type, Ptc_type::silicon) ? Verdict::impossible : Verdict::unlikely,
            "the resistance of a PTC rises as it gets warmer"};
  case coil:
  case winding: return {Verdict::unlikely, "the resistance of a metal rises as it gets warmer"};
  default: return {};
  }
}

Answer with_magnet(Component_kind kind) {
  if (kind == switch_) return {};
  if (kind == electronic) return {Verdict::unlikely, "a magnetic sensor answers only while it is supplied"};
  if (kind == potentiometer) return {Verdict::unlikely, "only a chain of reed contacts answers to a magnet"};
  return {Verdict::impossible, "only a reed contact answers to a magnet"};
}

Answer charging(Component_kind kind) {
  switch (kind) {
  case ntc:
  case ptc:
  case rtd:
  case resistor:
  case fuse:
  case potentiometer:
  case photocell:
  case thermocouple:
  case coding: return {Verdict::unlikely, no_capacitor};
  default: return {};
  }
}

Answer sliding(Component_kind kind) {
  const bool may = kind == potentiometer || kind == electronic || kind == winding;
  return may ? Answer{} : Answer{Verdict::unlikely, no_slider};
}

Answer answer(const Resolved_component& component, Response_kind response) {
  switch (response) {
  case Response_kind::falls_when_warmed: return when_cooler_reads_more(component);
  case Response_kind::rises_when_warmed:
    return component.is(ntc) ? Answer{Verdict::impossible, "the resistance of an NTC falls as it gets warmer"}
                             : Answer{};
  case Response_kind::toggles_with_magnet: return with_magnet(component.kind());
  case Response_kind::rises_to_open: return charging(component.kind());
  case Response_kind::smooth_sweep: return sliding(component.kind());
  case Response_kind::steady_when_moved: break;
  }
  return {};
}

void check(const Subject& subject, Sink& sink) {
  each_component_test(subject, [&](Text, const Test& test, const Resolved_component& component) {
    // In a circuit the other elements answer too; elsewhere than across the part something else does.
    const bool alone =
        circuits_of(subject.resolved, component).empty() && same_ends(component.placed->between, test.probes);
    const auto report = [&](Node_id node, std::string_view word, const Answer& found) {
      if (found.verdict == Verdict::possible) return;
      sink.report_as(found.verdict == Verdict::impossible && alone ? Severity::error : Severity::warning,
                     node,
                     fmt::format("`{}` is no answer of {}, which is of kind `{}`: {}", word, component.id,
                                 word_of(component.kind()), found.why));
      sink.relate(component.node, "the component");
    };
    if (test.response.kind)
      report(test.response.kind.node, word_of(*test.response.kind), answer(component, *test.response.kind));
    if (test.expect.kind && *test.expect.kind == Expectation_kind::rises_to_open)
      report(test.expect.kind.node, word_of(*test.expect.kind), charging(component.kind()));
    if (test.expect.kind && *test.expect.kind == Expectation_kind::smooth_sweep)
      report(test.expect.kind.node, word_of(*test.expect.kind), sliding(component.kind()));
  });
}

}

extern const Rule response_impossible = {
    .family = Family::fault,
    .severity = Severity::error,
    .summary = "A reading is to answer in a way that the kind of the component cannot.",
    .check = check,
};

}
