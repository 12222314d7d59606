#include "lint/contacts.h"
#include "lint/modes.h"
#include "lint/rule.h"

namespace ohmlore::rules {
namespace {

// The reading is watched while something moves or warms.
bool is_watched(const Test& test) {
  if (test.expect.kind && *test.expect.kind == Expectation_kind::smooth_sweep) return true;
  if (!test.response.kind) return false;
  switch (*test.response.kind) {
  case Response_kind::steady_when_moved:
  case Response_kind::falls_when_warmed:
  case Response_kind::rises_when_warmed:
  case Response_kind::smooth_sweep: return true;
  default: return false;
  }
}

// Why a dead reading cannot exclude a mode; empty where it can.
std::string_view reason(const Test& test, Mode mode) {
  switch (mode) {
  case Mode::seized: return "a rotor or valve that does not move reads like a free one";
  case Mode::shorted_turns: return "a few shorted turns change the reading less than its tolerance";
  case Mode::leakage_to_earth:
    return "an ohmmeter can prove leakage, but its low voltage never proves that there is none";
  case Mode::low_capacitance: return "a charging capacitor shows that it charges, not how much it holds";
  case Mode::consumed: return "what is left of it reads as a new one does";
  case Mode::intermittent:
    return is_watched(test)
               ? ""
               : "only a reading that is watched while the wires are moved or the part is warmed "
                 "(`response`) can";
  default: return "";
  }
}

// Those that its component cannot have are for mode-impossible.
bool can_have(const Subject& subject, const Test& test, Mode mode) {
  const Resolved_component* component = test.component ? subject.resolved.component_of(test) : nullptr;
  return component == nullptr || likelihood(*component, mode) != Likelihood::impossible ||
         !circuits_of(subject.resolved, *component).empty();
}

void check(const Subject& subject, Sink& sink) {
  each_test(subject, [&](Text, const Test& test) {
    for (const Value<Mode>& mode : test.excludes) {
      if (!mode || !can_have(subject, test, *mode)) continue;
      const std::string_view why = reason(test, *mode);
      if (!why.empty())
        sink.report(mode.node,
                    fmt::format("this reading cannot exclude {}: {}; leave it out", word_of(*mode), why));
    }
  });
}

}

extern const Rule mode_undecidable = {
    .family = Family::fault,
    .severity = Severity::warning,
    .summary = "A test claims to exclude a failure that no reading of a dead part can exclude.",
    .check = check,
    .goes_by_absence = true,
};

}
