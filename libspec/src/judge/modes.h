// Which failures a reading excludes, and which it looks like.
#pragma once

#include <vector>

#include "judge/case.h"
#include "ohmlore/separation.h"

namespace ohmlore {

/// The part is off, and the leads read the harness: what fails then are its wires.
bool reads_wires_alone(const Resolved& resolved, const Test& test, Text test_id);

/// For each failure mode that the test excludes or a fault suspects, and each that the reading fits: of the
/// component, or of its wires where they are read alone. `service` is what `limits` gave.
std::vector<Mode_answer> mode_answers(const Case& one, const Known& known, const Judged& service,
                                      const Limits_at& limits);

/// From there on a reading in ohm, or the end of the range of an OL, is that of an open path; below, an OL
/// may be less than that.
double open_from(Interval healthy, double range_end);

/// Below that, in ohm, nothing has drifted: it is a short, with what leads and bad contacts leave of one.
double drift_low_from(Interval healthy);

/// What comes and goes, and what one position of a sweep does not show of the others.
bool shows_only_while_watched(const Test& test, Mode mode);

/// How a failure goes with the reading of an open path: what has drifted or closes badly is none, and what
/// lies beside a part that opens reads on, unless it is open too.
enum class Opening : std::uint8_t { none, with_another, whole };
Opening opening_of(Mode mode, const Cell& cell, double range_end);

/// What may be read, in ohm, where one of several is open or shorted, which the cell says for the temperature
/// at which a healthy path reads `healthy`; here it reads `now`. The others change with the temperature as
/// the whole does, or as `changes_in_circuit` says. Less than `broken` ohm nothing conducts beside a break,
/// and none of them reads twice what it should; of a short is left what leads and bad or burnt contacts
/// leave, and of that of one of several paths less than most of what is healthy.
Interval through_others(Mode mode, const Cell& cell, const std::optional<Interval>& healthy, Interval now,
                        Interval changes, double broken);

/// Where an open path is asked for: what reads up to that is a contact, with the resistor that the part may
/// have in it; above, damp or a leak may conduct as well.
double conducts_up_to(const Resolved_component& component);

/// Where the part's protector, which opens in the heat, may be what is open.
std::string_view mind_the_protector(const Resolved_component& component);

/// Where such a part is what is open.
inline constexpr std::string_view find_what_opened_it =
    "a limiter or fuse that has opened may have done its work: find what opened it, and put that right, "
    "before it is reset or replaced";
bool opens_to_protect(const Resolved_component& component);

/// Where what is read through them is open.
inline constexpr std::string_view mind_the_diodes = "behind its diodes a good one reads open too with a "
                                                    "meter of low test voltage: read it again both ways with "
                                                    "another, on its diode range, before it is condemned";

/// Where so much is healthy at least, and less is read.
constexpr double fingers_matter_from = 1e5; ///< in ohm; common practice, no source
inline constexpr std::string_view mind_the_fingers =
    "fingers on both tips read a few kΩ to several MΩ: hold the leads by their insulation, and read again";

/// Where a coil with a diode across it reads too low, which may conduct beside it.
inline constexpr std::string_view mind_the_diode_across =
    "the diode across the coil conducts a little where the positive lead lies on its anode: exchange the "
    "leads, and judge by the higher of the two readings";

/// Where a photocell is what is not healthy.
inline constexpr std::string_view mind_the_light =
    "a photocell reads by the light on it: darken it wholly, or light it, as the test asks, and read again "
    "before it is condemned";

/// Where two that are compared differ.
std::string which_of_two(Text twin);

/// The circuits of several parts, its component among them, on whose ends the leads of a test lie.
std::vector<const Circuit*> circuits_read(const Resolved& resolved, const Test& test);
/// Whether there is one so arranged.
bool is_path_of_several(const Resolved& resolved, const Test& test, Arrangement arrangement);

/// Where all of several side by side read open.
inline constexpr std::string_view look_at_the_way_to_all =
    "of parts side by side the others read on where one is open: where nothing does, it is rather the way to "
    "all of them that is open, a lead, a wire or a plug";

/// Where a path of several was read on the part too.
inline constexpr std::string_view of_which_of_several =
    "the reading on the part is left out: several parts lie in this path, and it does not say of which of "
    "them it is. Open the joint between them and read each by itself; never bridge one";

/// Where a path of several is not healthy.
inline constexpr std::string_view read_each_by_itself =
    "several parts lie in this path: open the joint between them and read each by itself; never bridge one";

}
