#include <algorithm>

#include "lint/colours.h"
#include "lint/rule.h"

namespace ohmlore::rules {

// There a protective conductor may be green alone: NFPA 70 (NEC), 250.119; those beside the United States
// from memory.
static bool may_be_green(const Appliance& appliance) {
  return std::any_of(appliance.markets.begin(), appliance.markets.end(), [](const Value<Text>& market) {
    return market && (*market == "US" || *market == "CA" || *market == "MX" || *market == "JP");
  });
}

static void check(const Subject& subject, Sink& sink) {
  const Profile* profile = subject.profile();
  if (profile == nullptr) return;
  for (const auto& connector : profile->connectors)
    for (const auto& pin : connector.value.pins) {
      const Wire& wire = pin.value.wire;
      const auto* c = pin.value.circuit ? &pin.value.circuit : &connector.value.circuit;
      if (!wire || !wire.base || !*c) continue;
      const bool earth = **c == Circuit_class::protective_earth;
      if (!earth && !is_green_and_yellow(wire)) continue;
      const std::string contact = text_of(Contact{connector.id, pin.id});
      if (is_green_and_yellow(wire) && !earth) {
        sink.report(
            wire.node,
            fmt::format(
                "the wire of {} is green-and-yellow, but the contact is declared {}; if it is an earth, "
                "say \"circuit\": \"protective_earth\" on the pin; if not, say so in its `note` and waive "
                "this",
                contact, word_of(**c)));
      } else if (earth && is_colour_code(*wire.base) && !is_green_and_yellow(wire)) {
        const bool green = *wire.base == "GN" && !wire.stripe;
        if (green && may_be_green(profile->appliance)) continue;
        sink.report(wire.node,
                    fmt::format("{} is declared protective_earth, but its wire is {}{}{}; a protective "
                                "conductor is green-and-yellow (GNYE), or bare (base `other`){}",
                                contact, *wire.base, wire.stripe ? " with stripe " : "",
                                wire.stripe ? *wire.stripe : Text(),
                                green ? ", or green where `markets` has US, CA, MX or JP" : ""));
      }
    }
}

extern const Rule earth_colour_misused = {
    .family = Family::pin,
    .severity = Severity::warning,
    .summary = "A green-and-yellow wire off protective earth, or a protective earth of another colour.",
    .check = check,
    .goes_by_absence = true,
};

}
