// One reading with all that is known of it: what the verdict on one, and the comparison of several, start
// from.
#pragma once

#include "judge/probable.h"

namespace ohmlore {

/// The means with nothing left open.
struct Means {
  Meter_accuracy meter;
  Leads leads;
  bool leads_stated = false;
  Decision_rule rule;
  Interval room;
};
Means means_of(const Corpus* corpus, const Judge_means& means);

/// Outside before too_close before within.
Conformity worse(Conformity a, Conformity b);

/// Leads subtracted, and the doubts about it in ohm.
Known known_of(const Reading& reading, const Means& means);

/// How far meter and leads may be off, in ohm.
double half_width_of(const Known& known);
/// It reads less than the leads to the part, which no part does.
bool is_below_leads(const Reading& reading, const Means& means);

/// Sets what the limits hang on: the part's temperature with its doubts, or the room's range.
void set_temperature(Known& known, const Expected& expected, const Judge_request& request,
                     const Means& means);

/// How warm the part may be: what is uncertain of its temperature counts in, and without one it is anywhere
/// in the room's range.
Interval kelvin_of_part(const Judge_request& request, const Resolved_component& component, Interval room);

/// The limits where they are asked: over a room at a temperature in it of which they speak; empty where they
/// speak of none.
std::optional<Interval> limits_where_asked(const Expected& expected, const Known& known);

/// An open path, whatever is asked for.
bool is_open(const Resolved_component& component, const Known& known);
/// Open where a closed contact is asked for, or the reverse.
bool is_other_state(const Resolved_component& component, const Known& known, const Judged& service);

/// Where a healthy part reads at one x, in ohm; empty where that is not known there.
using Middle_at = std::function<std::optional<double>(double x)>;
/// The verdict on one pair of limits; empty where none are known there. `limits` is asked at every x,
/// `middle` may be empty.
std::optional<Judged> judged(const Known& known, const Limits_at& limits, const Means& means,
                             const Middle_at& middle);

}
