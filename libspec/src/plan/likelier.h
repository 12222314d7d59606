// How weights are compared, so that equals, which differ in noise, keep their order.
#pragma once

namespace ohmlore {

inline bool is_likelier(double a, double b) { return static_cast<float>(a) > static_cast<float>(b); }

}
