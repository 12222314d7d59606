// The appliance, its safety, its connectors and circuits.
#include "model/types.h"

namespace ohmlore {

static constexpr Field controller_fields[] = {
    {OHMLORE_MEMBER(Controller, part), .doc = "Part number of the control board.", .example = R"("OV-4410")",
     .required = true},
    {OHMLORE_MEMBER(Controller, issues),
     .doc = "Issues of the board that the profile holds for; all where absent.", .example = R"(["B", "C"])"},
    {OHMLORE_MEMBER(Controller, software),
     .doc = "Software versions that the profile holds for; all where absent.", .example = R"(["2.1"])"},
};
constinit const Record controller_record = {"controller", "Controller", "The control board.",
                                            controller_fields};

static constexpr Field appliance_fields[] = {
    {OHMLORE_MEMBER(Appliance, maker), .doc = "The maker, or manufacturer.", .example = R"("Orrinvale")",
     .required = true},
    {OHMLORE_MEMBER(Appliance, models), .doc = "The models, as on the rating plate.",
     .example = R"(["Larch 24 C", "Larch 30 C"])", .required = true, .limits = {1, 100}},
    {OHMLORE_MEMBER(Appliance, type), .doc = "What kind of appliance it is.",
     .example = R"("combination_boiler")", .required = true},
    {OHMLORE_MEMBER(Appliance, fuel), .doc = "What it runs on.", .example = R"("natural_gas")",
     .required = true},
    {OHMLORE_MEMBER(Appliance, controller), .doc = "The control board.",
     .example = R"({ "part": "OV-4410", "issues": ["B", "C"] })", .required = true},
    {OHMLORE_MEMBER(Appliance, markets), .doc = "Countries where it was sold (ISO 3166-1, two letters).",
     .example = R"(["IE", "NL"])", .form = Form::country},
    {OHMLORE_MEMBER(Appliance, note), .doc = "What else to know.", .example = R"("built from 2016 on")"},
};
constinit const Record appliance_record = {"appliance", "Appliance",
                                           "The appliances that carry the control board.", appliance_fields};

static constexpr Field supply_fields[] = {
    {OHMLORE_MEMBER(Supply, kind), .doc = "What kind of supply it is.", .example = R"("mains")",
     .required = true},
    {OHMLORE_MEMBER(Supply, isolate_at),
     .doc = "The point of isolation: where it is isolated and locked off.",
     .example = R"("fused spur beside the appliance")", .required = true},
    {OHMLORE_MEMBER(Supply, enters_at), .doc = "The contacts where it enters.",
     .example = R"(["X1.1", "X1.2"])", .target = Target::contact},
    {OHMLORE_MEMBER(Supply, note), .doc = "What else to know.", .example = R"("fed from another circuit")"},
};
constinit const Record supply_record = {"supply", "Supply", "One supply that must be isolated before work.",
                                        supply_fields, &Supply_kind_words};

static constexpr auto stored_charge = kinds(Hazard_kind::stored_charge);
static constexpr Field hazard_fields[] = {
    {OHMLORE_MEMBER(Hazard, kind), .doc = "What the danger is.", .example = R"("stored_charge")",
     .required = true},
    {OHMLORE_MEMBER(Hazard, where), .doc = "The contacts where it is met.", .example = R"(["X9.1", "X9.3"])",
     .required_by = stored_charge, .target = Target::contact, .limits = {1, 64},
     .absent_rule = "stored-charge-unverified"},
    {OHMLORE_MEMBER(Hazard, component), .doc = "The component where it is met.", .example = R"("fan")",
     .form = Form::id, .target = Target::component},
    {OHMLORE_MEMBER(Hazard, wait), .doc = "How long to wait after isolation.", .example = R"("5 min")",
     .kinds = stored_charge | kinds(Hazard_kind::hot_surface), .required_by = stored_charge,
     .dimensions = Dimension::time, .absent_rule = "stored-charge-unverified"},
    {OHMLORE_MEMBER(Hazard, verify_below),
     .doc = "The voltage below which the charge must be seen to have fallen before anything is touched.",
     .example = R"("10 V")", .kinds = stored_charge, .required_by = stored_charge,
     .dimensions = Dimension::voltage, .absent_rule = "stored-charge-unverified"},
    {OHMLORE_MEMBER(Hazard, note), .doc = "What else to know.", .example = R"("fan turns in a draught")"},
};
constinit const Record hazard_record = {"hazard", "Hazard", "One danger that isolation alone does not end.",
                                        hazard_fields, &Hazard_kind_words};

static constexpr Field safety_fields[] = {
    {OHMLORE_MEMBER(Safety, supplies), .doc = "Every supply of the appliance, each with its isolation point.",
     .example = R"([{ "kind": "mains", "isolate_at": "fused spur beside the appliance" }])", .required = true,
     .limits = {1, 16}, .absent_rule = "supplies-missing"},
    {OHMLORE_MEMBER(Safety, hazards), .doc = "Dangers that isolation alone does not end.",
     .example = R"([{ "kind": "hot_surface", "component": "heater", "wait": "20 min" }])"},
};
constinit const Record safety_record = {"safety", "Safety record",
                                        "What must be isolated, and what stays dangerous.", safety_fields};

static constexpr Field wire_fields[] = {
    {OHMLORE_MEMBER(Wire, base), .doc = "Base colour, as an IEC 60757 code.", .example = R"("BN")",
     .required = true},
    {OHMLORE_MEMBER(Wire, stripe), .doc = "Colour of the stripe.", .example = R"("WH")"},
    {OHMLORE_MEMBER(Wire, other), .doc = "The colour in words, where no code says it.",
     .example = R"("clear, tinned braid")"},
};
constinit const Record wire_record = {
    "wire", "Wire", "Colour of a wire. A colour without a code: base `other`, and the words.", wire_fields};

static constexpr Field pin_fields[] = {
    {OHMLORE_MEMBER(Pin, signal), .doc = "The name of what it carries.", .example = R"("flow sensor")"},
    {OHMLORE_MEMBER(Pin, wire), .doc = "Colour of its wire.",
     .example = R"({ "base": "GY", "stripe": "WH" })"},
    {OHMLORE_MEMBER(Pin, circuit), .doc = "Circuit class, where it differs from the connector's.",
     .example = R"("protective_earth")"},
    {OHMLORE_MEMBER(Pin, shared), .doc = "Several components share this contact.", .example = "true"},
    {OHMLORE_MEMBER(Pin, links), .doc = "Contacts that the board joins with this one.",
     .example = R"(["X4.6"])", .target = Target::contact},
    {OHMLORE_MEMBER(Pin, note), .doc = "What else to know.", .example = R"("crimped double")"},
};
constinit const Record pin_record = {"pin", "Pin", "One contact of a connector.", pin_fields};

static constexpr Field connector_fields[] = {
    {OHMLORE_MEMBER(Connector, label), .doc = "The label, or name, printed on the board.",
     .example = R"("X4")", .required = true},
    {OHMLORE_MEMBER(Connector, where), .doc = "Where on the board.", .example = R"("lower edge, left")"},
    {OHMLORE_MEMBER(Connector, mounted), .doc = "Where it is mounted; on the board where absent.",
     .example = R"("board")"},
    {OHMLORE_MEMBER(Connector, ways), .doc = "How many ways it has.", .example = "8", .required = true,
     .limits = {1, 200}},
    {OHMLORE_MEMBER(Connector, rows), .doc = "In how many rows; one where absent.", .example = "2",
     .limits = {1, 8}},
    {OHMLORE_MEMBER(Connector, numbering), .doc = "How the ways are numbered.", .example = R"("along_rows")"},
    {OHMLORE_MEMBER(Connector, keying), .doc = "What keeps another plug out.",
     .example = R"("rib between ways 2 and 3")"},
    {OHMLORE_MEMBER(Connector, circuit), .doc = "Circuit class of its pins, unless a pin says otherwise.",
     .example = R"("selv")", .required = true},
    {OHMLORE_MEMBER(Connector, pins), .doc = "Its pins by number or letter; a way without entry is not used.",
     .example = R"({ "1": { "signal": "flow sensor", "wire": { "base": "OG" } } })", .required = true,
     .limits = {1, 200}},
    {OHMLORE_MEMBER(Connector, note), .doc = "What else to know.",
     .example = R"("same plug as X5: mark before withdrawing")"},
    {OHMLORE_MEMBER(Connector, source), .doc = "Where the pin-out comes from.",
     .example = R"({ "from": "notes", "page": "12" })"},
};
constinit const Record connector_record = {"connector", "Connector", "One plug of the board or the harness.",
                                           connector_fields};

using enum Element_kind;
static constexpr Field element_fields[] = {
    {OHMLORE_MEMBER(Element, kind), .doc = "What it is.", .example = R"("component")", .required = true},
    {OHMLORE_MEMBER(Element, component), .doc = "The component.", .example = R"("flow_switch")",
     .kinds = kinds(Element_kind::component), .required_by = kinds(Element_kind::component), .form = Form::id,
     .target = Target::component},
    {OHMLORE_MEMBER(Element, circuit), .doc = "The circuit.", .example = R"("limit_chain")",
     .kinds = kinds(Element_kind::circuit), .required_by = kinds(Element_kind::circuit), .form = Form::id,
     .target = Target::circuit},
    {OHMLORE_MEMBER(Element, resistance), .doc = "Its resistance.", .example = R"("1 kΩ")",
     .kinds = kinds(resistor), .required_by = kinds(resistor), .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Element, tolerance), .doc = "Tolerance on the resistance.", .example = R"("5 %")",
     .kinds = kinds(resistor), .dimensions = Dimension::resistance | Dimension::ratio},
};
constinit const Record element_record = {"element", "Element", "One element of a circuit.", element_fields,
                                         &Element_kind_words};

static constexpr Field circuit_fields[] = {
    {OHMLORE_MEMBER(Circuit, between), .doc = "The two contacts at its ends.",
     .example = R"(["X2.1", "X2.4"])", .required = true, .target = Target::contact, .limits = {2, 2}},
    {OHMLORE_MEMBER(Circuit, arrangement), .doc = "In series or in parallel.", .example = R"("series")",
     .required = true},
    {OHMLORE_MEMBER(Circuit, elements), .doc = "Its elements, in order from the first contact.",
     .example =
         R"([{ "kind": "component", "component": "limit_stat" }, { "kind": "component", "component": "flow_switch" }])",
     .required = true, .limits = {1, 32}},
    {OHMLORE_MEMBER(Circuit, note), .doc = "What else to know.",
     .example = R"("joints between are not brought out")"},
    {OHMLORE_MEMBER(Circuit, source), .doc = "Where the circuit comes from.",
     .example = R"({ "from": "notes", "page": "9" })"},
};
constinit const Record circuit_record = {
    "circuit", "Circuit", "Several elements between two contacts, with joints that no contact shows.",
    circuit_fields};

}
