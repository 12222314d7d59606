// What the readings of windings tell of how they are joined.
#pragma once

#include "lint/network.h"

namespace ohmlore::rules {

/// A terminal whose name says that it is the common end: common…, com, c, neutral…, n. Beside b or d, c is
/// one letter of several.
bool is_common(Text terminal, const std::vector<Text>& terminals);

/// A terminal whose name says that it is the sliding one of a potentiometer: wiper…, slider….
bool is_wiper(Text terminal);

/// The readings that give a resistance: those that call for an open path, or for more than a value, are left
/// out.
Readings finite(Readings readings);

/// Calls `f(readings, connection, component)` for each set of readings of a winding that says how it is
/// connected.
template <class F>
void each_connected(const Subject& subject, F f) {
  for (const Resolved_component& component : subject.resolved.components) {
    const auto connection = component.get(&Component_type::connection);
    if (!component.is(Component_kind::winding) || !connection) continue;
    for (const Readings& readings : readings_of(subject, component)) f(readings, **connection, component);
  }
}

/// The three readings among a common end and two others; null where one is missing.
struct Around_common {
  Text common, one_end, other_end;
  const Reading *one = nullptr, *other = nullptr; ///< from the common to each end
  const Reading* whole = nullptr;                 ///< from end to end
};
/// Every three around each terminal whose name says that it is the common.
std::vector<Around_common> around_common(const Readings& readings);

/// False where `whole` is surely less than the two in series. More than both is for triangle-broken.
bool in_series(const Reading& whole, const Reading& one, const Reading& other);

/// The end that is the common instead, where the named one cannot be: the sum does not hold for it, and does
/// for the other, whose opposite reading is the largest. Empty where the readings do not say so.
Text likely_common(const Around_common& three);

}
