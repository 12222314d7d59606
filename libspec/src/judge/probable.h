// How probable each answer is: limits that hang on an uncertain temperature, beside an uncertain reading.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "judge/limits.h"

namespace ohmlore {

/// One cause of doubt, in its own unit, rectangular.
struct Doubt {
  Contributor from = Contributor::meter;
  double half_width = 0;
};

/// All that is known of one measurement.
struct Known {
  double ohm = 0;               ///< leads subtracted
  std::vector<Doubt> own;       ///< of the reading, in ohm
  double x = 0;                 ///< what the limits hang on
  std::vector<Doubt> about;     ///< of `x`, in its unit; empty where the limits hang on nothing
  std::optional<Interval> room; ///< `x` may be anything in it; `x` and `about` then mean nothing
  std::optional<double> beyond; ///< OL: the value is more than this, in ohm, and `ohm` means nothing
};

/// Limits in ohm at one x; empty where nothing is known there.
using Limits_at = std::function<std::optional<Interval>(double x)>;
/// The service limits of a test, which must outlive them.
Limits_at service_of(const Expected& expected);

/// Each probability at least and at most, over a room range; alike elsewhere.
struct Probable {
  Conformity_probability least, most;
};
/// Where x is uncertain, the mean over its distribution: nothing is linearised. Empty where no limits are
/// known.
std::optional<Probable> probable(const Known& known, const Limits_at& limits);

/// What holds all over a room range.
Conformity decide(const Probable& probable, const Decision_rule& rule);

}
