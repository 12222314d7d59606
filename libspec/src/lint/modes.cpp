#include "lint/modes.h"

#include "ohmlore/description.h"

namespace ohmlore::rules {
namespace {

using enum Component_kind;

// Impossible is only what a part of that kind surely lacks: turns, a capacitor, a moving contact, something
// that moves, a protector. Kinds that may hold one beside what they are named for are unlikely: a heater with
// a filter, a contact with a snubber, a slow fuse with a coiled wire. Where the word is used in a wider
// sense, it is possible: a valve coil that is "stuck" means the valve.
struct Row {
  Mode mode;
  std::uint64_t impossible;
  std::uint64_t unlikely;
};

constexpr std::uint64_t sensors_but_thermocouples = kinds(ntc, ptc, photocell, anode);
constexpr std::uint64_t sensors = sensors_but_thermocouples | kinds(thermocouple);

constexpr Row rows[] = {
    // Wire-wound resistors, potentiometers and platinum have turns; a thermal relay has a heater winding.
    {Mode::shorted_turns, sensors, kinds(switch_, fuse, capacitor, electrode, coding)},
    // A motor may hold its run capacitor, a spark generator its charge.
    {Mode::low_capacitance, sensors | kinds(rtd, resistor, fuse, electrode, potentiometer, coding),
     kinds(coil, heater, switch_, transformer)},
    // In the lead of a thermocouple an interrupter may lie, for the overheat thermostat.
    {Mode::stuck_open, sensors_but_thermocouples | kinds(rtd, resistor, electrode, capacitor),
     kinds(thermocouple, winding, heater, fuse, potentiometer, transformer, igniter, coding)},
    {Mode::stuck_closed, sensors_but_thermocouples | kinds(rtd, resistor, electrode, capacitor),
     kinds(thermocouple, winding, heater, fuse, potentiometer, transformer, igniter, coding)},
    {Mode::seized,
     sensors | kinds(rtd, resistor, heater, fuse, electrode, capacitor, transformer, igniter, coding), 0},
    // Capacitors have a disconnector that opens under pressure, some resistors a thermal fuse; a limit
    // thermostat
    // is a protector itself.
    {Mode::protector_open, kinds(ntc, photocell, anode, rtd, electrode, potentiometer, coding),
     kinds(ptc, thermocouple, resistor, switch_, fuse, igniter)},
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
