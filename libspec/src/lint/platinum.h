// The platinum sensors that heating appliances have.
#pragma once

namespace ohmlore::rules {

/// Their resistances at 0 °C, in ohm: Pt100, Pt500, Pt1000 (common practice, no source).
inline constexpr double usual_r0[] = {100, 500, 1000};

}
