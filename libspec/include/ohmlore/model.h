// The records of the format, as plain structs. Member names are the JSON keys; what each means, and all that
// outputs need to know of it, stands once in src/model/ (see description.h). Quantities are SI.
#pragma once

#include "ohmlore/quantity.h"
#include "ohmlore/value.h"
#include "ohmlore/words.h"

namespace ohmlore {

// ---- shared by several records

struct Source_reference : Record_base {
  Value<Text> from;
  Value<Text> page, table, note;
};

struct Source : Record_base {
  Value<Source_kind> kind;
  Value<Text> title, number, edition, date;
  Value<Text> instrument, conditions, method, note;
  Value<std::int64_t> samples;
  List<Value<Text>> based_on;
};

struct Applies_when : Record_base {
  List<Value<Text>> models, software;
};

struct Waiver : Record_base {
  Value<Text> rule, at, why, until;
};

// ---- resistance models

struct Table_row : Record_base {
  Value<Quantity> at;
  Value<Quantity> nominal, min, max;
  Value<Tolerance> tolerance;
};

/// The resistance between two named terminals of one component.
struct Terminal_pair : Record_base {
  Value<Text> from, to;
  Value<Quantity> resistance;
};

struct Resistance_model : Record_base {
  Value<Model_kind> kind;
  Value<Quantity> resistance;
  Value<Range> at;
  Value<Tolerance> tolerance;
  Value<Quantity> b_value;
  Value<Range> b_between;
  Value<Tolerance> b_tolerance;
  List<Table_row> rows;
  Value<Quantity> a, b, c;
  Value<Quantity> r0;
  Value<Tolerance_class> tolerance_class;
  Value<Rtd_construction> construction;
  Value<Quantity> a1, a2, a3, a4, a5, a6;
  List<Terminal_pair> pairs;
  Value<Metal> metal;
  Value<Quantity> k;
  Value<Quantity> voltage, power;
  Value<Quantity> above, below;
  Apart<Source_reference> source;
};

// ---- components

struct Protector : Record_base {
  Value<Quantity> trips_at;
  Value<Text> position;
  Value<Protector_reset> reset;
};

/// What a component is, wherever it sits: the whole of a part document, and the own members of a component.
struct Component_type : Record_base {
  // What is asked of every component lies together: rules look at many in turn.
  Value<Component_kind> kind;
  Value<bool> purely_resistive;
  Value<bool> linearised;                // ntc
  Value<Ptc_type> type;                  // ptc
  Value<Metal> metal;                    // rtd, coil, winding
  Value<Drive> drive;                    // coil
  Value<Suppression> suppression;        // coil
  Value<Connection> connection;          // winding
  Value<Heater_element> element;         // heater, igniter
  Value<Contacts> contacts;              // switch
  Value<bool> pulse;                     // switch
  Value<bool> manual_reset, indicator;   // switch
  Value<Fuse_construction> construction; // fuse
  Value<bool> fitted_on_board;           // fuse
  Value<Electrode_purpose> purpose;      // electrode
  Value<Electrode_path> path;            // electrode
  Value<Anode_protection> protection;    // anode
  Value<std::int64_t> wires;             // rtd
  Apart<Protector> protector;            // winding
  Keyed<Value<Contact_state>> states;    // switch
  Value<Quantity> series_resistance;     // coil, switch
  Value<Text> name;
  Apart<Resistance_model> model;
  Value<Tolerance> service_limit;
  Value<Quantity> rated_voltage, rated_power, rated_current;
  Value<Range> temperature_range;
  Value<Quantity> trips_at, resets_at;  // switch, fuse
  Value<Text> operates_at;              // switch
  Value<Quantity> rating;               // fuse
  Value<Quantity> suppressor;           // electrode
  Value<Quantity> wiper_contact;        // potentiometer
  Value<Quantity> capacitance, bleeder; // capacitor
  Value<Quantity> dark, light;          // photocell
  Value<Text> code;                     // coding
  Value<Text> contains;                 // electronic
  Value<Text> orderable, assembly, note;
  Apart<Source_reference> source;
};

struct Component : Component_type {
  Value<Text> part;
  Value<Text> where;
  Applies_when when;
  List<Value<Contact>> between;
  Keyed<Value<Contact>> terminals;
};

// ---- appliance, safety, connectors

struct Controller : Record_base {
  Value<Text> part;
  List<Value<Text>> issues, software;
};

struct Appliance : Record_base {
  Value<Text> maker;
  List<Value<Text>> models;
  Value<Appliance_type> type;
  Value<Fuel> fuel;
  Controller controller;
  List<Value<Text>> markets;
  Value<Text> note;
};

struct Supply : Record_base {
  Value<Supply_kind> kind;
  Value<Text> isolate_at;
  List<Value<Contact>> enters_at;
  Value<Text> note;
};

struct Hazard : Record_base {
  Value<Hazard_kind> kind;
  List<Value<Contact>> where;
  Value<Text> component;
  Value<Quantity> wait, verify_below;
  Value<Text> note;
};

struct Safety : Record_base {
  List<Supply> supplies;
  List<Hazard> hazards;
};

struct Wire : Record_base {
  Value<Text> base, stripe, other;
};

struct Pin : Record_base {
  Value<Circuit_class> circuit;
  Value<bool> shared;
  List<Value<Contact>> links;
  Value<Text> signal;
  Wire wire;
  Value<Text> note;
};

struct Connector : Record_base {
  Value<Text> label, where, keying;
  Value<std::int64_t> ways, rows;
  Value<Numbering> numbering;
  Value<Mounting> mounted;
  Value<Circuit_class> circuit;
  Keyed<Pin> pins;
  Value<Text> note;
  Apart<Source_reference> source;
};

struct Element : Record_base {
  Value<Element_kind> kind;
  Value<Text> component, circuit;
  Value<Quantity> resistance;
  Value<Tolerance> tolerance;
};

struct Circuit : Record_base {
  List<Value<Contact>> between;
  Value<Arrangement> arrangement;
  List<Element> elements;
  Value<Text> note;
  Apart<Source_reference> source;
};

// ---- tests

struct Expectation : Record_base {
  Value<Expectation_kind> kind;
  Value<Quantity> nominal;
  Value<Tolerance> tolerance;
  Value<Quantity> min, max;
  Value<Quantity> reverse_min, reverse_max;
  Value<Range> at;
  Value<Quantity> above, below;
  Value<Text> with;
  Value<Tolerance> largest_difference;
};

struct Response : Record_base {
  Value<Response_kind> kind;
  Value<Text> how;
};

struct Test : Record_base {
  // As with components: what every rule asks comes first.
  Value<Side> side;
  Value<Text> component;
  List<Value<Contact>> probes;
  Expectation expect;
  Response response;
  Value<Text> unplug, condition;
  Value<Contact> positive;
  List<Value<Text>> disconnect_also, before;
  List<Value<Mode>> excludes;
  Value<Effort> effort;
  Value<Text> note;
  Apart<Source_reference> source;
};

// ---- faults

struct Display : Record_base {
  Value<Display_kind> kind;
  Value<Text> text, subcode, pattern, lamp;
};

struct Raised : Record_base {
  Value<Text> component;
  Value<Quantity> below, above;
  Value<Quantity> after;
};

struct Suspect : Record_base {
  Value<Suspect_kind> kind;
  Value<Text> component, connector, cause;
  List<Value<Mode>> modes;
  List<Value<Text>> decided_by;
  Value<Text> not_decidable, note;
};

struct Fault : Record_base {
  Display display;
  Value<Text> meaning;
  Value<Fault_reset> reset;
  Applies_when when;
  Raised raised;
  List<Suspect> suspects;
  Value<Text> note;
  Apart<Source_reference> source;
};

// ---- documents

struct Profile : Record_base {
  Value<Text> schema; // "$schema"
  Value<Text> format;
  Value<Document_kind> kind;
  Value<Text> id;
  Value<std::int64_t> revision;
  Value<Text> title;
  Appliance appliance;
  Safety safety;
  Keyed<Source> sources;
  Apart<Source_reference> source;
  Keyed<Connector> connectors;
  Keyed<Component> components;
  Keyed<Circuit> circuits;
  Keyed<Test> tests;
  Keyed<Fault> faults;
  List<Waiver> waivers;
};

struct Part : Record_base {
  Value<Text> schema; // "$schema"
  Value<Text> format;
  Value<Document_kind> kind;
  Value<Text> id;
  Value<std::int64_t> revision;
  Value<Text> title;
  Keyed<Source> sources;
  Apart<Source_reference> source;
  Component_type component;
  List<Waiver> waivers;
};

struct Policy : Record_base {
  Value<Text> ruleset;
  Keyed<Value<Severity>> severities;
  Value<Failing_level> fail_on;
  List<Value<Source_kind>> required_sources;
  Value<Quantity> service_limit;
};

/// Ids that documents had: by the old one the new one.
struct Redirected_ids : Record_base {
  Keyed<Value<Text>> profiles, parts;
};

/// The meter that a corpus is judged with: ±(accuracy of reading + counts of the last digit).
struct Meter : Record_base {
  Value<Quantity> accuracy;
  Value<std::int64_t> counts, display_counts;
  Value<Quantity> leads;
};

struct Corpus : Record_base {
  Value<Text> schema; // "$schema"
  Value<Text> format;
  Value<Document_kind> kind;
  Value<Text> title;
  Value<Text> licence;
  Policy policy;
  Meter meter;
  Value<Text> house_schema;
  List<Value<Text>> part_paths;
  Redirected_ids redirects;
};

}
