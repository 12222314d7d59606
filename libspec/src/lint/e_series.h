// Preferred values of resistors.
#pragma once

#include "ohmlore/quantity.h"

namespace ohmlore::rules {

/// The preferred values of IEC 60063, by how many a decade holds. E96 and E48 are within E192; E3, E6 and E12
/// within E24.
enum class E_series : std::uint8_t { e24, e192 };

/// The value of a series nearest to a resistance above 0 Ω, in ohm.
double nearest_preferred(E_series series, double ohm);

/// True where a resistance is exactly a value of the series, in any decade.
bool is_preferred(E_series series, double ohm);

}
