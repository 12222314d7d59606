#include "lint/modes.h"

#include "ohmlore/description.h"

namespace ohmlore::rules {
namespace {

using enum Component_kind;

// Only what a part of that kind surely lacks: turns, a capacitor, a moving contact, something that moves, a
// protector. Kinds that may hold one beside what they are named for are unlikely, not impossible: a heater
// with a filter, a valve coil whose word "stuck" means the valve.
struct Row {
  Mode mode;
  std::uint64_t impossible;
  std::uint64_t unlikely;
};

constexpr std::uint64_t sensors = kinds(ntc, ptc, photocell, thermocouple, anode);

constexpr Row rows[] = {
    // Wire-wound resistors, potentiometers and platinum have turns; so has the lead of an electrode.
    {Mode::shorted_turns, sensors | kinds(switch_, fuse, capacitor), kinds(electrode, coding)},
    // A motor may hold its run capacitor, a spark generator its charge.
    {Mode::low_capacitance, sensors | kinds(rtd, resistor, switch_, fuse, electrode, potentiometer, coding),
     kinds(coil, heater, transformer)},
    {Mode::stuck_open, sensors | kinds(rtd, resistor, electrode, capacitor, coding),
     kinds(winding, heater, fuse, potentiometer, transformer, igniter)},
    {Mode::stuck_closed, sensors | kinds(rtd, resistor, electrode, capacitor, coding),
     kinds(winding, heater, fuse, potentiometer, transformer, igniter)},
    {Mode::seized,
     sensors | kinds(rtd, resistor, heater, fuse, electrode, capacitor, transformer, igniter, coding), 0},
    // Capacitors have a disconnector that opens under pressure; a limit thermostat is a protector itself.
    {Mode::protector_open,
     kinds(ntc, photocell, thermocouple, anode, rtd, resistor, electrode, potentiometer, coding),
     kinds(ptc, switch_, fuse, igniter)},
};

}

Likelihood likelihood(Component_kind kind, Mode mode) {
  for (const Row& row : rows) {
    if (row.mode != mode) continue;
    if (row.impossible & kinds(kind)) return Likelihood::impossible;
    if (row.unlikely & kinds(kind)) return Likelihood::unlikely;
  }
  return Likelihood::possible;
}

}
