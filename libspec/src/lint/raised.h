// The reading that raises a code, and the sensor that gives it.
#pragma once

#include "ohmlore/resolve.h"

namespace ohmlore::rules {

/// The sensor that raises a code: the one named, else the only suspected component. Null where that is none,
/// or one that is not known.
const Resolved_component* sensor_of(const Resolved& resolved, const Fault& fault);

/// How a code speaks of its sensor.
enum class Speaks_of : std::uint8_t {
  the_appliance, ///< the sensor is not suspected, as with an overheat code
  drift,         ///< it is suspected of drift alone
  a_break, ///< of open or short alone, at times perhaps, and nothing else but its wires and the board is
  more     ///< anything else
};
Speaks_of speaks_of(const Fault& fault, Text sensor);

inline bool is_ohm(const Value<Quantity>& limit) {
  return limit && limit->dimension == Dimension::resistance;
}
inline bool is_temperature(const Value<Quantity>& limit) {
  return limit && limit->dimension == Dimension::temperature;
}

}
