// Models of paths: a limit in the place of a resistance.
#pragma once

#include <optional>

#include "ohmlore/bands.h"

namespace ohmlore {

/// A switch, a fuse: it is open from a limit up, or closed up to one.
inline bool has_threshold(const Resistance_model& model) {
  return *model.kind == Model_kind::open || *model.kind == Model_kind::closed;
}
/// What such a path may read, in ohm; empty where no limit is stated, or the model is another.
inline std::optional<Interval> threshold_interval(const Resistance_model& model) {
  if (*model.kind == Model_kind::open && model.above) return Interval{model.above->si, infinity};
  if (*model.kind == Model_kind::closed && model.below) return Interval{0, model.below->si};
  return std::nullopt;
}

/// False where it says the same at all temperatures.
inline bool depends_on_temperature(const Resistance_model& model) {
  return !has_threshold(model) && *model.kind != Model_kind::fixed && *model.kind != Model_kind::power;
}

}
