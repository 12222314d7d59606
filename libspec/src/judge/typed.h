// What is said of numbers that a person types, or that come from a meter.
#pragma once

#include <string>
#include <string_view>

#include "ohmlore/judge.h"

namespace ohmlore {

/// What it means that a meter shows less than nothing.
inline constexpr std::string_view why_negative = "a resistance is not, so a voltage is still there, or the "
                                                 "leads were nulled wrongly; stop and prove dead again";

/// What is wrong with a number that was typed for a resistance or a temperature, and what to write.
std::string without_unit(std::string_view number, Dimension dimension);

/// Why nothing that is tested dead has this temperature, in kelvin; empty where something may.
std::string no_such_temperature(double kelvin);

/// Whether it may be how far something is off: finite, not negative.
bool is_magnitude(double x);
/// Why there is no such meter, or no such leads; empty where there may be.
std::string no_such_means(const Meter_accuracy& meter, const Leads& leads);

}
