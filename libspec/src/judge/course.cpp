#include "judge/course.h"

#include "judge/limits.h"
#include "judge/modes.h"
#include "lint/contacts.h"
#include "lint/readings.h"

namespace ohmlore {

using namespace rules;

static std::optional<Interval> part_band(const Resolved& resolved, const Test& test,
                                         const Resolved_component& part, double kelvin, bool beside) {
  if (part.is(Component_kind::switch_)) {
    const auto state = state_between_probes(part, test);
    return state ? std::optional(reading_in(part, *state)) : std::nullopt;
  }
  const auto expected = model_expectation(resolved, part, test);
  if (!expected) return std::nullopt;
  if (expected->stated) return expected->stated; // a fuse
  return beside ? expected->manufacturing_beside(kelvin) : expected->manufacturing_at(kelvin);
}

std::optional<Interval> circuit_band(const Resolved& resolved, const Test& test, double kelvin, bool beside) {
  const Circuit* read = nullptr;
  for (const Circuit* circuit : circuits_read(resolved, test)) read = outer_of(resolved, read, *circuit);
  if (read == nullptr) return std::nullopt;
  return circuit_reading(resolved, *read, [&](const Resolved_component& part) {
    return part_band(resolved, test, part, kelvin, beside);
  });
}

Interval changes_in_circuit(const Resolved& resolved, const Test& test, Interval kelvin) {
  Interval changes = {1, 1};
  const auto at = temperature_of(test);
  const double stated = at ? at->middle() : zero_celsius + 20;
  for (const Circuit* circuit : circuits_read(resolved, test))
    for (const Circuit* one : circuits_in(resolved, *circuit))
      for (const Element& element : one->elements) {
        const auto* part = element.component ? resolved.component(*element.component) : nullptr;
        const auto expected = part != nullptr ? model_expectation(resolved, *part, test) : std::nullopt;
        if (!expected || !expected->varies) continue;
        const auto from = expected->nominal_beside(stated);
        for (const double to : {kelvin.low, kelvin.high})
          if (const auto here = expected->nominal_beside(to); here && from && *from > 0)
            changes = hull(changes, {*here / *from, *here / *from});
      }
  return changes;
}

}
