#include "lint/raised.h"

namespace ohmlore::rules {

const Resolved_component* sensor_of(const Resolved& resolved, const Fault& fault) {
  if (fault.raised.component) return resolved.component(*fault.raised.component);
  const Resolved_component* only = nullptr;
  for (const Suspect& suspect : fault.suspects) {
    if (!suspect.component) continue;
    const Resolved_component* component = resolved.component(*suspect.component);
    if (component == nullptr || (only != nullptr && component != only)) return nullptr;
    only = component;
  }
  return only;
}

Speaks_of speaks_of(const Fault& fault, Text sensor) {
  bool suspected = false, breaks = true, drifts = true, alone = true;
  for (const Suspect& suspect : fault.suspects) {
    if (!suspect.component || *suspect.component != sensor) {
      alone = alone && suspect.kind && *suspect.kind != Suspect_kind::component &&
              *suspect.kind != Suspect_kind::cause;
      continue;
    }
    suspected = true;
    if (suspect.modes.empty()) return Speaks_of::more;
    for (const Value<Mode>& mode : suspect.modes) {
      if (!mode) return Speaks_of::more;
      breaks = breaks && (*mode == Mode::open || *mode == Mode::short_ || *mode == Mode::intermittent);
      drifts = drifts && (*mode == Mode::drift_high || *mode == Mode::drift_low);
    }
  }
  if (!suspected) return Speaks_of::the_appliance;
  if (drifts) return Speaks_of::drift;
  return breaks && alone ? Speaks_of::a_break : Speaks_of::more;
}

}
