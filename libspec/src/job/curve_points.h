// A curve, one point at a time.
#pragma once

#include "ohmlore/curve.h"

namespace ohmlore {

Curve_point point_at(const Curve& curve, double kelvin);

}
