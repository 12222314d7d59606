// What curves say of themselves, one sentence each; {} stands for what is filled in.
#pragma once

#include "ohmlore/curve.h"

namespace ohmlore {

struct Curve_sentence {
  std::string_view id, text;
};

/// A sentence, in whichever language, with its places filled.
std::string filled(std::string_view sentence, const std::vector<std::string>& filling);

/// What must be known to read a curve. `range_is_assumed`: nothing says for which temperatures it holds.
std::vector<Curve_note> notes_of(const Curve& curve, const Resolved_component& component,
                                 bool range_is_assumed);
/// Those of what a model says between these temperatures.
std::vector<Curve_note> notes_at(const Resolved_component& component, const Resistance_model& model,
                                 Interval kelvin);

inline constexpr Curve_sentence curve_sentences[] = {
    {"threshold",
     "A switch or fuse has a threshold at every temperature, leads subtracted; what lies between "
     "a closed and an open path is a doubtful contact."},
    {"as_made", "The band is the manufacturing tolerance: is it this part? Whether it still does its job is "
                "decided by its service limit{}."},
    {"no_tolerance",
     "No tolerance is stated: the band is only what the digits leave open, and a good part may "
     "lie outside of it."},
    {"one_b_below",
     "The band is that of one B-value; B drifts in every thermistor: a healthy one may lie up to {} "
     "below such a curve at {}. Where that matters, look for a table or Steinhart-Hart."},
    {"one_b_above",
     "The band is that of one B-value; B drifts in every thermistor: a healthy one may lie up to {} "
     "above such a curve at {}. Where that matters, look for a table or Steinhart-Hart."},
    {"bends_between", "Between two rows the band is as wide as thermistors bend."},
    {"unknown_between",
     "Between two rows it is only known that a good part lies between what the two allow."},
    {"k_of_copper",
     "No k of the metal is stated: that of copper is taken, so that a good part may lie outside."},
    {"usual_range", "The component states no temperature range: that of usual sensors is shown."},
    {"stated_range", "The component is stated for {} to {}."},
};

}
