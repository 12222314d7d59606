// What a test asks for besides one reading.
#pragma once

#include <string_view>

#include "ohmlore/resolve.h"

namespace ohmlore {

/// It is read both ways round, the leads exchanged.
bool asks_both_directions(const Test& test);
/// The reading of a twin beside it.
bool compares_twins(const Test& test);
/// A healthy part reads low at first, and rises.
bool watches_it_rise(const Test& test);
/// Its shaft is turned from end to end: one position says nothing of the others.
bool is_swept(const Test& test);
/// A magnet is to change it from open to closed, or back.
bool toggles(const Test& test);
/// And where the magnet of a turbine happens to rest decides what a healthy one reads at first.
bool rests_in_either(const Resolved_component& component, const Test& test);
/// It is watched while something is done to it.
bool asks_for_response(const Test& test);
inline constexpr std::string_view no_answer_asked =
    "this test asks for no response: whether it answers is not judged";

}
