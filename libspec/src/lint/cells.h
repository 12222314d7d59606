// What one test shows of one suspect.
#pragma once

#include "lint/suspect_place.h"
#include "ohmlore/separation.h"

namespace ohmlore::rules {

/// In ohm, see Named_test.
std::optional<Interval> healthy_of(const Path& path);

/// A suspect as one test sees it.
struct Seen_suspect {
  const Path& path;
  const std::optional<Interval>& healthy; ///< of the path
  Place place;
  double highest_range;                ///< of the meter, in ohm
  const Resolved_component* component; ///< null for a harness
  const Circuit* chain;                ///< that it is measured through; null where alone
};

/// In one failure mode, or in whichever it may be.
Cell cell_of(const Seen_suspect& seen, std::optional<Mode> mode);

}
