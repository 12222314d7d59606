#include "lint/modes.h"

#include "ohmlore/description.h"

namespace ohmlore::rules {
namespace {

using enum Component_kind;

// Impossible is only what a part of that kind surely lacks: turns, a capacitor, a moving contact, something
// that moves, a protector. Kinds that may hold one beside what they are named for are unlikely: a heater with
// a filter, a contact with a snubber, a slow fuse with a coiled wire. Where the word is used in a wider
// sense, it is possible: a valve coil that is "stuck" means the valve. So is a thermal actuator, whose only
// electric part is a heater or a ptc; as most of those move nothing, it is unlikely.
struct Row {
  Mode mode;
  std::uint64_t impossible;
  std::uint64_t unlikely;
};

constexpr std::uint64_t sensors = kinds(ntc, ptc, photocell, thermocouple, anode);

constexpr std::uint64_t never_stuck = kinds(ntc, photocell, anode, rtd, resistor, electrode, capacitor);
constexpr std::uint64_t hardly_stuck =
    kinds(ptc, thermocouple, winding, heater, fuse, potentiometer, transformer, igniter, coding);

constexpr Row rows[] = {
    // Wire-wound resistors, potentiometers and platinum have turns; a thermal relay has a heater winding.
    {Mode::shorted_turns, sensors, kinds(switch_, fuse, capacitor, electrode, coding)},
    // A motor may hold its run capacitor, a spark generator its charge.
    {Mode::low_capacitance, sensors | kinds(rtd, resistor, fuse, electrode, potentiometer, coding),
     kinds(coil, heater, switch_, transformer)},
    // In the lead of a thermocouple an interrupter may lie, for the overheat thermostat.
    {Mode::stuck_open, never_stuck, hardly_stuck},
    {Mode::stuck_closed, never_stuck, hardly_stuck},
    {Mode::seized,
     kinds(ntc, photocell, thermocouple, anode, rtd, resistor, fuse, electrode, capacitor, transformer,
           igniter, coding),
     kinds(ptc, heater)},
    // Capacitors have a disconnector that opens under pressure, some resistors a thermal fuse, some tank
    // sensors a thermal cut-out in the lead; a limit thermostat is a protector itself.
    {Mode::protector_open, kinds(photocell, anode, electrode, potentiometer, coding),
     kinds(ntc, ptc, thermocouple, rtd, resistor, switch_, fuse, igniter)},
    // Electrodes and igniters burn away, electronics may hold a battery; contacts, wipers and brushes wear.
    {Mode::consumed, kinds(ntc, ptc, rtd, resistor, photocell, transformer, coding),
     kinds(coil, winding, heater, switch_, fuse, potentiometer, capacitor, thermocouple)},
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

Likelihood likelihood(const Resolved_component& component, Mode mode) {
  return component.known_kind ? likelihood(*component.known_kind, mode) : Likelihood::possible;
}

// Contacts wear, and a lead may hold a fuse.
Likelihood likelihood_in_harness(Mode mode) {
  switch (mode) {
  case Mode::shorted_turns:
  case Mode::low_capacitance:
  case Mode::seized: return Likelihood::impossible;
  case Mode::stuck_open:
  case Mode::stuck_closed:
  case Mode::protector_open:
  case Mode::consumed: return Likelihood::unlikely;
  default: return Likelihood::possible;
  }
}

}
