// Components, and the component types that part documents hold.
#include <array>

#include "model/types.h"

namespace ohmlore {

static constexpr Field protector_fields[] = {
    {OHMLORE_MEMBER(Protector, trips_at), .doc = "Temperature at which it opens.", .example = R"("140 °C")",
     .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Protector, position), .doc = "Where it sits in the circuit, by the name of a terminal.",
     .example = R"("common")", .form = Form::id},
    {OHMLORE_MEMBER(Protector, reset), .doc = "How it closes again.", .example = R"("automatic")",
     .required = true},
};
constinit const Record protector_record = {
    "protector", "Protector", "A built-in thermal protector: while it is open, its terminal reads open.",
    protector_fields};

using enum Component_kind;

// What every component has.
static constexpr Field own_fields[] = {
    {OHMLORE_MEMBER(Component_type, kind), .doc = "What it is.", .example = R"("ntc")", .required = true},
    {OHMLORE_MEMBER(Component_type, name), .doc = "Its name, as an engineer would say it.",
     .example = R"("Flow temperature sensor")", .required = true},
};

// Where it sits: not part of a type.
static constexpr Field placed_fields[] = {
    {OHMLORE_MEMBER(Component, part),
     .doc = "The part document whose members stand for those that are absent here.",
     .example = R"("ntc-10k-b3977-1pct")", .form = Form::id, .target = Target::part},
    {OHMLORE_MEMBER(Component, where), .doc = "Its location: where to find it in the appliance.",
     .example = R"("clipped to the pipe leaving the heat exchanger")"},
    {OHMLORE_MEMBER(Component, when),
     .doc = "Where models differ: the models and software that have it; its tests are for those only.",
     .example = R"({ "models": ["Larch 30 C"] })"},
    {OHMLORE_MEMBER(Component, between),
     .doc = "The two contacts that it lies between; where there are more, `terminals` names each.",
     .example = R"(["X4.1", "X4.2"])", .target = Target::contact, .limits = {2, 2}},
    {OHMLORE_MEMBER(Component, terminals),
     .doc = "Its terminals by name, each with the contact that it goes to.",
     .example = R"({ "start": "X9.1", "common": "X9.2", "run": "X9.3" })", .target = Target::contact,
     .limits = {1, 32}},
};

static constexpr Field type_fields[] = {
    {OHMLORE_MEMBER(Component_type, model), .doc = "Its resistance when healthy.",
     .example = R"({ "kind": "fixed", "resistance": "470 Ω", "tolerance": "5 %" })"},
    {OHMLORE_MEMBER(Component_type, service_limit),
     .doc = "How far a reading may lie from nominal while the part still does its job.",
     .example = R"("3 K")",
     .dimensions = Dimension::resistance | Dimension::temperature_difference | Dimension::ratio},
    {OHMLORE_MEMBER(Component_type, rated_voltage), .doc = "Rated voltage.", .example = R"("230 V ac")",
     .dimensions = Dimension::voltage},
    {OHMLORE_MEMBER(Component_type, rated_power), .doc = "Rated power.", .example = R"("45 W")",
     .dimensions = Dimension::power},
    {OHMLORE_MEMBER(Component_type, rated_current), .doc = "Rated current.", .example = R"("0.2 A")",
     .dimensions = Dimension::current},
    {OHMLORE_MEMBER(Component_type, temperature_range), .doc = "Temperatures that the part is made for.",
     .example = R"("-20 °C to 110 °C")", .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Component_type, purely_resistive),
     .doc = "Declared to be linear and without polarity: no diode, no electronics, no contact that moves.",
     .example = "true"},
    {OHMLORE_MEMBER(Component_type, orderable), .doc = "The maker's spare number.",
     .example = R"("OV-S-118")"},
    {OHMLORE_MEMBER(Component_type, assembly), .doc = "The assembly that it is replaced with.",
     .example = R"("fan assembly")"},
    {OHMLORE_MEMBER(Component_type, linearised),
     .doc = "A resistor inside flattens the curve, so that the B of a bare thermistor does not apply.",
     .example = "true", .kinds = kinds(ntc)},
    {OHMLORE_MEMBER(Component_type, type), .doc = "Ceramic or silicon.", .example = R"("switching")",
     .kinds = kinds(ptc)},
    {OHMLORE_MEMBER(Component_type, wires), .doc = "Number of wires.", .example = "2", .kinds = kinds(rtd),
     .limits = {2, 4}},
    {OHMLORE_MEMBER(Component_type, metal), .doc = "Metal that the current flows through.",
     .example = R"("copper")", .kinds = kinds(rtd, coil, winding)},
    {OHMLORE_MEMBER(Component_type, drive), .doc = "What it is driven with.", .example = R"("rectified")",
     .kinds = kinds(coil)},
    {OHMLORE_MEMBER(Component_type, suppression), .doc = "What lies across or in series with the coil.",
     .example = R"("bridge")", .kinds = kinds(coil)},
    {OHMLORE_MEMBER(Component_type, series_resistance), .doc = "A resistor in series inside the part.",
     .example = R"("100 Ω")", .kinds = kinds(coil, switch_), .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Component_type, connection), .doc = "How the windings are joined.",
     .example = R"("start_run")", .kinds = kinds(winding)},
    {OHMLORE_MEMBER(Component_type, protector), .doc = "Built-in thermal protector.",
     .example = R"({ "trips_at": "140 °C", "position": "common", "reset": "automatic" })",
     .kinds = kinds(winding)},
    {OHMLORE_MEMBER(Component_type, element), .doc = "What the element is made of.", .example = R"("wire")",
     .kinds = kinds(heater, igniter)},
    {OHMLORE_MEMBER(Component_type, contacts), .doc = "Kind of contact.", .example = R"("nc")",
     .kinds = kinds(switch_)},
    {OHMLORE_MEMBER(Component_type, pulse),
     .doc = "Reed contact that pulses: the position of the magnet decides what it reads at rest.",
     .example = "true", .kinds = kinds(switch_)},
    {OHMLORE_MEMBER(Component_type, states),
     .doc = "State of the contact, by condition; of a changeover that from its common to its normally open "
            "contact.",
     .example = R"({ "cold": "closed", "hot": "open" })", .kinds = kinds(switch_), .limits = {1, 16}},
    {OHMLORE_MEMBER(Component_type, trips_at), .doc = "Temperature at which it changes.",
     .example = R"("105 °C")", .kinds = kinds(switch_, fuse), .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Component_type, resets_at), .doc = "Temperature at which it changes back.",
     .example = R"("90 °C")", .kinds = kinds(switch_), .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Component_type, operates_at),
     .doc = "What makes it change, where that is not a temperature.", .example = R"("0.8 bar, rising")",
     .kinds = kinds(switch_)},
    {OHMLORE_MEMBER(Component_type, manual_reset), .doc = "It stays open until reset by hand.",
     .example = "true", .kinds = kinds(switch_)},
    {OHMLORE_MEMBER(Component_type, indicator),
     .doc = "A lamp lies in parallel, so that an open contact does not read open.", .example = "false",
     .kinds = kinds(switch_)},
    {OHMLORE_MEMBER(Component_type, rating), .doc = "Rated current.", .example = R"("2 A")",
     .kinds = kinds(fuse), .dimensions = Dimension::current},
    {OHMLORE_MEMBER(Component_type, construction), .doc = "What it is made of.", .example = R"("wire")",
     .kinds = kinds(fuse)},
    {OHMLORE_MEMBER(Component_type, fitted_on_board), .doc = "It sits on the control board.",
     .example = "true", .kinds = kinds(fuse)},
    {OHMLORE_MEMBER(Component_type, purpose), .doc = "What it is for.", .example = R"("flame_sensing")",
     .kinds = kinds(electrode)},
    {OHMLORE_MEMBER(Component_type, suppressor), .doc = "Resistor in the lead.", .example = R"("1 kΩ")",
     .kinds = kinds(electrode), .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Component_type, path), .doc = "The conducting path that a healthy one shows.",
     .example = R"("none")", .kinds = kinds(electrode)},
    {OHMLORE_MEMBER(Component_type, wiper_contact), .doc = "Resistance of the wiper's contact.",
     .example = R"("50 Ω")", .kinds = kinds(potentiometer), .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Component_type, capacitance), .doc = "Rated capacitance.", .example = R"("2 µF")",
     .kinds = kinds(capacitor), .dimensions = Dimension::capacitance},
    {OHMLORE_MEMBER(Component_type, bleeder), .doc = "Resistor across the capacitor.", .example = R"("1 MΩ")",
     .kinds = kinds(capacitor), .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Component_type, dark), .doc = "Least resistance in the dark.", .example = R"("1 MΩ")",
     .kinds = kinds(photocell), .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Component_type, light), .doc = "Greatest resistance in room light.",
     .example = R"("20 kΩ")", .kinds = kinds(photocell), .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Component_type, code), .doc = "What it tells the board.",
     .example = R"("24 kW, natural gas")", .kinds = kinds(coding)},
    {OHMLORE_MEMBER(Component_type, protection), .doc = "How it protects.", .example = R"("sacrificial")",
     .kinds = kinds(anode)},
    {OHMLORE_MEMBER(Component_type, contains), .doc = "What electronics it holds.",
     .example = R"("motor electronics with input filter")", .kinds = kinds(electronic)},
    {OHMLORE_MEMBER(Component_type, note), .doc = "What else to know.", .example = R"("replaced as a pair")"},
    {OHMLORE_MEMBER(Component_type, source), .doc = "Where its numbers come from.",
     .example = R"({ "from": "notes", "page": "31" })"},
};

template <std::size_t... n>
static constexpr auto joined(const Field (&... lists)[n]) {
  std::array<Field, (n + ...)> all{};
  std::size_t next = 0;
  auto append = [&](std::span<const Field> list) {
    for (const Field& field : list) all[next++] = field;
  };
  (append(lists), ...);
  return all;
}

static constexpr auto component_fields = joined(own_fields, placed_fields, type_fields);
static constexpr auto component_type_fields = joined(own_fields, type_fields);

constinit const Record component_record = {
    "component", "Component", "One part of the appliance, and the contacts of the board that it goes to.",
    component_fields, &Component_kind_words};
constinit const Record component_type_record = {"component_type", "Component type",
                                                "What a component is, wherever it sits.",
                                                component_type_fields, &Component_kind_words};

}
