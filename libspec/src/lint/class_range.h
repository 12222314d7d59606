// Where the tolerance class of a platinum sensor holds.
#pragma once

#include <algorithm>

#include "lint/rule.h"

namespace ohmlore::rules {

/// In °C, for a class that the model states; `unstated` is taken where it states no construction.
inline Interval class_range(const Resistance_model& model, Rtd_construction unstated) {
  const Rtd_class_range range = rtd_class_range(static_cast<Rtd_class>(*model.tolerance_class));
  const bool film = (model.construction ? *model.construction : unstated) == Rtd_construction::film;
  return film ? Interval{range.film_low, range.film_high} : Interval{range.wire_low, range.wire_high};
}

/// Whether a range of temperature surely reaches beyond limits in °C, half a digit of its ends allowed.
inline bool reaches_beyond(const Range& at, Interval limits) {
  const Interval low = celsius_of(written_interval(at.low)), high = celsius_of(written_interval(at.high));
  return std::min(low.high, high.high) < limits.low || std::max(low.low, high.low) > limits.high;
}

}
