// The severities that a finding of a run may have.
#pragma once

#include "model/types.h"

namespace ohmlore {

enum class Reported : std::uint8_t { error, warning, note };
inline constexpr Word reported_list[] = {
    {"error", "Wrong: not well formed, contradictory or physically impossible."},
    {"warning", "Implausible."},
    {"note", "Could be better."},
};
inline constexpr Enumeration reported_words = {"reported_severity", reported_list};
constexpr const Enumeration* enumeration(std::type_identity<Reported>) { return &reported_words; }

}
