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

/// What it means that a meter shows less than nothing.
inline constexpr std::string_view why_negative = "a resistance is not, so a voltage is still there, or the "
                                                 "leads were nulled wrongly; stop and prove dead again";

/// What is wrong with a number that was typed for a resistance or a temperature, and what to write.
std::string without_unit(std::string_view number, Dimension dimension);

/// Outside before too_close before within.
Conformity worse(Conformity a, Conformity b);

/// Leads subtracted, and the doubts about it in ohm.
Known known_of(const Reading& reading, const Means& means);

/// Sets what the limits hang on: the part's temperature with its doubts, or the room's range.
void set_temperature(Known& known, const Expected& expected, const Judge_request& request,
                     const Means& means);

/// Where a protector that opens in the heat may be what is open.
inline constexpr std::string_view cool_and_read_again =
    "the protector may have opened in the heat: let it cool, and read again";

/// It is read both ways round, the leads exchanged.
bool asks_both_directions(const Test& test);
/// A healthy part reads low at first, and rises.
bool watches_it_rise(const Test& test);
/// A magnet is to change it from open to closed, or back.
bool toggles(const Test& test);
/// And where the magnet of a turbine happens to rest decides what a healthy one reads at first.
bool rests_in_either(const Resolved_component& component, const Test& test);
/// Open where a closed contact is asked for, or the reverse.
bool is_other_state(const Resolved_component& component, const Known& known, const Judged& service);
/// It is watched while something is done to it.
bool asks_for_response(const Test& test);
inline constexpr std::string_view no_answer_asked =
    "this test asks for no response: whether it answers is not judged";

/// At most 4 significant digits: "0.6 Ω", "15.25 kΩ". Not "600 mΩ", which is soon read as 600 MΩ.
std::string shown_ohm(double ohm);
/// Of what is rounded already.
std::string shown_rounded(double ohm);
/// "at least 1 MΩ", "at most 1 Ω", "13.6 kΩ to 15.9 kΩ"; rounded outward
std::string shown_ohm(Interval limits);
/// "0.23", "above 0.99", "below 0.01"
std::string shown_probability(double probability);
/// Of both ends.
std::string shown_probability(const Probable& probable);

/// The verdict on one pair of limits; empty where none are known there. `limits` is asked at every x,
/// `middle` (may be empty) is where a healthy part would read.
std::optional<Judged> judged(const Known& known, const Limits_at& limits, const Means& means,
                             const std::function<std::optional<double>(double)>& middle);

/// What plug and part, or before and after, say together.
Harness_verdict harness_verdict(const Judgement& at_plug, const Known& plug, const Known& part,
                                const Judged& of_part, const Means& means);
Response_verdict response_verdict(const Test& test, const Expected& expected, const Known& before,
                                  const Known& after, const Judge_request& request, const Means& means);
/// Whether it answered, by the second reading and as seen by eye: the worse of the two. Empty where nothing
/// says so, or the test asks for no response.
std::optional<Conformity> answer_of(const Test& test, const Judge_request& request,
                                    const std::optional<Response_verdict>& response);
/// What the readings of one component say together.
std::vector<Set_check> set_checks(const Resolved& resolved, std::span<const Judgement> judgements,
                                  const Means& means);

}
