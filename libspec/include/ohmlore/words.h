// Every enumeration of the format. A list is written once: the C++ enumerators and the words of the format
// both come from it (a trailing underscore keeps a word clear of C++ keywords and is not part of the word).
#pragma once

#include <cstdint>
#include <span>
#include <string_view>
#include <type_traits>

namespace ohmlore {

/// One word of an enumeration; its position is the value of the C++ enumerator.
struct Word {
  std::string_view text;
  std::string_view doc;
};

struct Enumeration {
  std::string_view name;
  std::span<const Word> words;
};

#define OHMLORE_ENUMERATOR(name, doc) name,
#define OHMLORE_ENUM(type, list)                                                                             \
  enum class type : std::uint8_t { list(OHMLORE_ENUMERATOR) };                                               \
  extern const Enumeration type##_words;                                                                     \
  constexpr const Enumeration* enumeration(std::type_identity<type>) { return &type##_words; }

// clang-format off
#define OHMLORE_DOCUMENT_KINDS(word) \
  word(profile, "One control board and the appliances that carry it.") \
  word(part, "A component type that many appliances share.") \
  word(corpus, "The root of a folder of profiles and parts: title, licence, policy.")
OHMLORE_ENUM(Document_kind, OHMLORE_DOCUMENT_KINDS)

#define OHMLORE_SEVERITIES(word) \
  word(off, "Not reported.") \
  word(note, "Could be better.") \
  word(warning, "Implausible.") \
  word(error, "Wrong: not well formed, contradictory or physically impossible.")
OHMLORE_ENUM(Severity, OHMLORE_SEVERITIES)

#define OHMLORE_FAILING_LEVELS(word) \
  word(note, "Any finding fails.") \
  word(warning, "A warning or an error fails.") \
  word(error, "Only an error fails.")
OHMLORE_ENUM(Failing_level, OHMLORE_FAILING_LEVELS)

#define OHMLORE_APPLIANCE_TYPES(word) \
  word(combination_boiler, "Heats rooms and, on demand, tap water.") \
  word(system_boiler, "Heats rooms and a cylinder; pump and expansion vessel inside.") \
  word(heat_only_boiler, "Heats water for an outside pump and cylinder.") \
  word(heat_pump, "Moves heat from air, ground or water.") \
  word(hybrid, "Heat pump and boiler under one control.") \
  word(storage_water_heater, "Heats a tank of tap water.") \
  word(instantaneous_water_heater, "Heats tap water as it flows.") \
  word(ventilation_unit, "Moves air, with or without heat recovery.") \
  word(warm_air_heater, "Heats air that is ducted to rooms.") \
  word(room_heater, "Heats the room it stands in.") \
  word(controller, "A control that stands alone, such as a wiring centre.")
OHMLORE_ENUM(Appliance_type, OHMLORE_APPLIANCE_TYPES)

#define OHMLORE_FUELS(word) \
  word(natural_gas, "Natural gas.") \
  word(lpg, "Liquefied petroleum gas.") \
  word(natural_gas_or_lpg, "Either gas, by conversion.") \
  word(oil, "Heating oil, such as kerosene.") \
  word(electricity, "Electricity only.") \
  word(pellets, "Wood pellets.") \
  word(solid, "Other solid fuel.")
OHMLORE_ENUM(Fuel, OHMLORE_FUELS)

#define OHMLORE_SUPPLY_KINDS(word) \
  word(mains, "The public supply.") \
  word(switched_live, "A live switched by an external control, fed from another circuit perhaps.") \
  word(external_control, "A control line with its own source.") \
  word(second_tariff, "A second, time-switched supply, such as off-peak.") \
  word(immersion_heater, "The supply of an immersion heater.") \
  word(solar_diverter, "Surplus power led to a heater.") \
  word(battery, "A battery or an uninterruptible supply.") \
  word(other_appliance, "Another appliance that feeds a contact.")
OHMLORE_ENUM(Supply_kind, OHMLORE_SUPPLY_KINDS)

#define OHMLORE_HAZARD_KINDS(word) \
  word(stored_charge, "A capacitor that stays charged after isolation: wait, then verify.") \
  word(generates_when_turned, "A fan in a draught or a turned rotor generates voltage.") \
  word(ignition_voltage, "A high-voltage ignition circuit.") \
  word(hot_surface, "A surface that stays hot after isolation.") \
  word(fuel_gas, "Parts that carry fuel gas.") \
  word(flammable_refrigerant, "A refrigerant that can burn.") \
  word(sealed_case, "A case whose seal is part of the combustion circuit.") \
  word(pressure, "Water or refrigerant under pressure.")
OHMLORE_ENUM(Hazard_kind, OHMLORE_HAZARD_KINDS)

#define OHMLORE_CIRCUIT_CLASSES(word) \
  word(selv, "Separated extra-low voltage.") \
  word(pelv, "Protective extra-low voltage, earthed.") \
  word(mains, "At mains potential, live or neutral.") \
  word(live_referenced, "Low voltage, but without isolation from the mains.") \
  word(ignition_hv, "Ignition high voltage.") \
  word(bus, "A data bus.") \
  word(protective_earth, "Protective conductor.")
OHMLORE_ENUM(Circuit_class, OHMLORE_CIRCUIT_CLASSES)

#define OHMLORE_MOUNTINGS(word) \
  word(board, "On the control board.") \
  word(inline_, "Between two pieces of harness.") \
  word(component, "On the component.")
OHMLORE_ENUM(Mounting, OHMLORE_MOUNTINGS)

#define OHMLORE_NUMBERINGS(word) \
  word(along_rows, "1, 2, 3 … along the first row, then along the next.") \
  word(across_rows, "1 in the first row, 2 in the second, and so on.")
OHMLORE_ENUM(Numbering, OHMLORE_NUMBERINGS)

#define OHMLORE_SOURCE_KINDS(word) \
  word(maker_document, "A document of the maker, such as a manual or data sheet.") \
  word(measurement, "Readings taken on good parts.") \
  word(standard, "A published standard.") \
  word(calculation, "Computed from other values.") \
  word(common_practice, "What the trade does, with no source to cite.")
OHMLORE_ENUM(Source_kind, OHMLORE_SOURCE_KINDS)

#define OHMLORE_COMPONENT_KINDS(word) \
  word(ntc, "Thermistor, the usual temperature sensor or probe, whose resistance falls with temperature.") \
  word(ptc, "Thermistor or silicon sensor whose resistance rises with temperature.") \
  word(rtd, "Metal resistance thermometer, a temperature sensor or probe of platinum (Pt100, Pt1000) or nickel.") \
  word(resistor, "Resistor of a fixed resistance.") \
  word(coil, "Coil of a valve, solenoid, relay or contactor.") \
  word(winding, "Winding of a motor or stepper, as of a fan, pump, compressor, actuator or motorised valve.") \
  word(heater, "Heating element, as of an oil preheater.") \
  word(switch_, "Switch or contact, as of a thermostat, limiter, reed, pressure or flow switch.") \
  word(fuse, "Fuse, thermal link or other one-shot cut-out (cutout).") \
  word(electrode, "Electrode, rod or probe for ignition, or as flame sensor by ionisation.") \
  word(potentiometer, "Adjustable divider, such as a dial or trimmer.") \
  word(capacitor, "Capacitor.") \
  word(transformer, "Transformer.") \
  word(igniter, "Hot-surface igniter or spark generator.") \
  word(photocell, "Light-dependent resistor (LDR) that watches a flame: a sensor or detector.") \
  word(thermocouple, "Thermocouple or thermopile.") \
  word(coding, "Resistor, link or jumper by which the electronics know which model they sit in.") \
  word(anode, "Corrosion protection of a tank.") \
  word(electronic, "Part with electronics inside, such as an EC fan or pump, a pressure or Hall sensor or a display: dead tests show little.")
OHMLORE_ENUM(Component_kind, OHMLORE_COMPONENT_KINDS)

#define OHMLORE_PTC_TYPES(word) \
  word(switching, "Ceramic: rises steeply at one temperature.") \
  word(silicon, "Silicon: rises evenly.")
OHMLORE_ENUM(Ptc_type, OHMLORE_PTC_TYPES)

#define OHMLORE_METALS(word) \
  word(copper, "Copper.") \
  word(aluminium, "Aluminium.") \
  word(platinum, "Platinum.") \
  word(nickel, "Nickel.")
OHMLORE_ENUM(Metal, OHMLORE_METALS)

#define OHMLORE_DRIVES(word) \
  word(dc, "Direct current.") \
  word(ac, "Alternating current.") \
  word(rectified, "Alternating current through a built-in rectifier.") \
  word(economiser, "Electronics that lower the holding current.")
OHMLORE_ENUM(Drive, OHMLORE_DRIVES)

#define OHMLORE_SUPPRESSIONS(word) \
  word(none, "Nothing across the coil.") \
  word(diode, "A diode across the coil.") \
  word(series_diode, "A diode in series with the coil.") \
  word(bridge, "A bridge rectifier.") \
  word(varistor, "A varistor across the coil.") \
  word(rc, "Resistor and capacitor across the coil.") \
  word(unknown, "Not known.")
OHMLORE_ENUM(Suppression, OHMLORE_SUPPRESSIONS)

#define OHMLORE_CONNECTIONS(word) \
  word(single, "One winding, two terminals.") \
  word(star, "Three windings joined in one point.") \
  word(delta, "Three windings in a ring.") \
  word(start_run, "Start and run winding with a common end.") \
  word(tapped, "One winding with taps for speeds.") \
  word(bipolar, "Stepper with two separate windings.") \
  word(unipolar, "Stepper whose windings have a centre common.") \
  word(two_direction, "Two windings, one for each direction.") \
  word(isolated, "Several windings without a joint.")
OHMLORE_ENUM(Connection, OHMLORE_CONNECTIONS)

#define OHMLORE_HEATER_ELEMENTS(word) \
  word(wire, "Resistance wire: nearly the same cold and hot.") \
  word(ptc, "Ceramic that limits itself: says little cold.") \
  word(silicon_carbide, "Silicon carbide.") \
  word(silicon_nitride, "Silicon nitride.") \
  word(spark, "No element: electronics that make sparks.") \
  word(unknown, "Not known.")
OHMLORE_ENUM(Heater_element, OHMLORE_HEATER_ELEMENTS)

#define OHMLORE_CONTACTS(word) \
  word(no, "Normally open.") \
  word(nc, "Normally closed.") \
  word(changeover, "One common, two contacts.")
OHMLORE_ENUM(Contacts, OHMLORE_CONTACTS)

#define OHMLORE_CONTACT_STATES(word) word(open, "Open.") word(closed, "Closed.")
OHMLORE_ENUM(Contact_state, OHMLORE_CONTACT_STATES)

#define OHMLORE_FUSE_CONSTRUCTIONS(word) \
  word(wire, "A wire that melts.") \
  word(thermal_one_shot, "Opens once at a temperature.") \
  word(resettable, "Polymer that recovers when cool.")
OHMLORE_ENUM(Fuse_construction, OHMLORE_FUSE_CONSTRUCTIONS)

#define OHMLORE_ELECTRODE_PURPOSES(word) \
  word(flame_sensing, "Senses the flame by ionisation.") \
  word(ignition, "Carries the spark.") \
  word(both, "Carries the spark and senses the flame.")
OHMLORE_ENUM(Electrode_purpose, OHMLORE_ELECTRODE_PURPOSES)

#define OHMLORE_ELECTRODE_PATHS(word) \
  word(none, "No conducting path to earth.") \
  word(suppressor, "Through a resistor in the lead.") \
  word(transformer, "Through the winding of the ignition transformer.")
OHMLORE_ENUM(Electrode_path, OHMLORE_ELECTRODE_PATHS)

#define OHMLORE_ANODE_PROTECTIONS(word) \
  word(sacrificial, "Metal that dissolves instead of the tank.") \
  word(impressed_current, "Fed with a small current.")
OHMLORE_ENUM(Anode_protection, OHMLORE_ANODE_PROTECTIONS)

#define OHMLORE_PROTECTOR_RESETS(word) \
  word(automatic, "Closes again when cool.") \
  word(manual, "Closes when pressed.") \
  word(none, "Never closes again.")
OHMLORE_ENUM(Protector_reset, OHMLORE_PROTECTOR_RESETS)

#define OHMLORE_MODEL_KINDS(word) \
  word(beta, "Thermistor (NTC) with one B-value (IEC 60539-1).") \
  word(steinhart_hart, "Thermistor (NTC) after Steinhart and Hart (1968).") \
  word(table, "Resistances at stated temperatures, as of an NTC.") \
  word(iec_60751, "Platinum after IEC 60751 (Pt100, Pt1000).") \
  word(polynomial, "R0 (1 + a1 t + … + a6 t^6), t in °C.") \
  word(copper, "Winding or coil of metal, resistance proportional to k + t.") \
  word(fixed, "The same resistance at every temperature, as of a resistor.") \
  word(power, "V²/P of a rated element.") \
  word(open, "No path.") \
  word(closed, "A closed contact or a link.")
OHMLORE_ENUM(Model_kind, OHMLORE_MODEL_KINDS)

#define OHMLORE_RTD_CLASSES(word) \
  word(AA, "±(0.1 + 0.0017 |t|) °C.") \
  word(A, "±(0.15 + 0.002 |t|) °C.") \
  word(B, "±(0.3 + 0.005 |t|) °C.") \
  word(C, "±(0.6 + 0.01 |t|) °C.")
OHMLORE_ENUM(Tolerance_class, OHMLORE_RTD_CLASSES)

#define OHMLORE_RTD_CONSTRUCTIONS(word) word(wire, "Wire-wound.") word(film, "Thin film.")
OHMLORE_ENUM(Rtd_construction, OHMLORE_RTD_CONSTRUCTIONS)

#define OHMLORE_EXPECTATION_KINDS(word) \
  word(band, "A resistance between two limits.") \
  word(open, "No path, no continuity: at least the resistance in `above`.") \
  word(closed, "A closed contact or a link, with continuity: at most the resistance in `below`.") \
  word(pair, "As its twin reads at the same temperature.") \
  word(not_short, "Not a short; says nothing more.") \
  word(rises_to_open, "Rises while a capacitor charges from the meter.") \
  word(smooth_sweep, "Moves evenly while the shaft is turned.") \
  word(both_directions, "One band each way round, leads exchanged.")
OHMLORE_ENUM(Expectation_kind, OHMLORE_EXPECTATION_KINDS)

#define OHMLORE_SIDES(word) \
  word(at_board_plug, "The withdrawn plug, looking into the harness.") \
  word(at_component, "On the terminals of the component, its plug withdrawn.") \
  word(at_inline_connector, "At a connector between, looking towards the component.") \
  word(harness, "The wires alone, unplugged at both ends.")
OHMLORE_ENUM(Side, OHMLORE_SIDES)

#define OHMLORE_RESPONSES(word) \
  word(falls_when_warmed, "The reading falls while the part is warmed.") \
  word(rises_when_warmed, "The reading rises while the part is warmed.") \
  word(toggles_with_magnet, "The contact changes as a magnet passes.") \
  word(rises_to_open, "The reading rises until nothing flows.") \
  word(smooth_sweep, "The reading moves evenly with the shaft.") \
  word(steady_when_moved, "The reading does not move while the wires are bent and pulled.")
OHMLORE_ENUM(Response_kind, OHMLORE_RESPONSES)

#define OHMLORE_MODES(word) \
  word(open, "No path where there should be one: broken.") \
  word(short_, "A path of nearly no resistance.") \
  word(drift_high, "Reads too high.") \
  word(drift_low, "Reads too low.") \
  word(leakage_to_earth, "A path to earth.") \
  word(intermittent, "Comes and goes with movement or heat.") \
  word(stuck_open, "A contact that never closes.") \
  word(stuck_closed, "A contact that never opens.") \
  word(high_contact_resistance, "A contact that closes badly.") \
  word(shorted_turns, "Some turns of a winding shorted.") \
  word(seized, "Does not move.") \
  word(protector_open, "The built-in protector has opened.") \
  word(low_capacitance, "Lost part of its capacitance.") \
  word(wrong_part, "Another part than the one that belongs here.") \
  word(wet_or_corroded, "Damp or corrosion between contacts.") \
  word(consumed, "Used up in service, as an anode is.")
OHMLORE_ENUM(Mode, OHMLORE_MODES)

#define OHMLORE_EFFORTS(word) \
  word(low, "At the board, nothing else to open.") \
  word(medium, "A cover or a panel to remove.") \
  word(high, "Parts to dismantle or to drain.")
OHMLORE_ENUM(Effort, OHMLORE_EFFORTS)

#define OHMLORE_DISPLAY_KINDS(word) \
  word(text, "Letters and digits.") \
  word(blink, "A pattern of a lamp or LED that flashes.") \
  word(subcode, "A code with a second code behind it.")
OHMLORE_ENUM(Display_kind, OHMLORE_DISPLAY_KINDS)

#define OHMLORE_RESETS(word) \
  word(automatic, "Clears by itself.") \
  word(manual, "Clears at the appliance.") \
  word(power_cycle, "Clears when the supply returns.")
OHMLORE_ENUM(Fault_reset, OHMLORE_RESETS)

#define OHMLORE_SUSPECT_KINDS(word) \
  word(component, "A component of this profile.") \
  word(harness, "The wires and contacts of a connector.") \
  word(board, "The control board.") \
  word(supply, "A supply of the appliance.") \
  word(cause, "Something that is not electrical.")
OHMLORE_ENUM(Suspect_kind, OHMLORE_SUSPECT_KINDS)

#define OHMLORE_ARRANGEMENTS(word) word(series, "One after the other.") word(parallel, "Side by side.")
OHMLORE_ENUM(Arrangement, OHMLORE_ARRANGEMENTS)

#define OHMLORE_ELEMENT_KINDS(word) \
  word(component, "A component of this profile.") \
  word(circuit, "Another circuit of this profile.") \
  word(resistor, "A resistor that is not a part of its own.") \
  word(diode, "A diode.")
OHMLORE_ENUM(Element_kind, OHMLORE_ELEMENT_KINDS)
// clang-format on

}
