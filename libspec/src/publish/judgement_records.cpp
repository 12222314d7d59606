// The report of verdicts. Nothing reads it back: the structs are here only to be described.
#include "model/types.h"
#include "ohmlore/judge.h"
#include "publish/common_records.h"
#include "publish/records.h"

namespace ohmlore {
namespace {

struct Judge_rule : Record_base {
  Value<Text> name;
  Value<Quantity> false_acceptance;
  Value<Quantity> false_rejection;
};
struct Judge_reading : Record_base {
  Value<Quantity> shown;
  Value<bool> over_range;
};
struct Judge_temperature : Record_base {
  Value<Quantity> at;
  Value<Quantity> half_width;
  Value<Temperature_place> place;
  Value<Quantity> since_running;
};
struct Judge_limit : Record_base {
  Value<Conformity> result;
  Value<Limit_basis> basis;
  Value<Text> words;
  Value<Quantity> low;
  Value<Quantity> high;
  Value<Quantity> below;
  Value<Quantity> within;
  Value<Quantity> above;
  Value<Quantity> within_at_most;
  Value<Quantity> best;
};
struct Judge_contribution : Record_base {
  Value<Contributor> from;
  Value<Quantity> half_width;
  Value<Quantity> per_unit;
  Value<Quantity> uncertainty;
  Value<Quantity> share;
};
struct Judge_mode : Record_base {
  Value<Mode> mode;
  Value<Mode_verdict> verdict;
  Value<Text> why;
};
struct Judge_other : Record_base {
  Value<Text> component;
  Value<Text> test;
  Value<Text> probes;
  Value<Quantity> within;
};
struct Judge_meaning : Record_base {
  Value<Quantity> at;
  Value<Quantity> low;
  Value<Quantity> high;
  Value<Quantity> above_thermometer;
};
struct Judge_harness : Record_base {
  Value<Conformity> result;
  Value<Mode> mode;
  Value<Quantity> difference;
  Value<Quantity> uncertainty;
  Value<Text> words;
};
struct Judge_response : Record_base {
  Value<Conformity> result;
  Value<Quantity> change;
  Value<Quantity> warmed_by;
  Value<Text> words;
};
struct Judge_set : Record_base {
  Value<Conformity> result;
  Value<Text> words;
};
struct Judged_test : Record_base {
  Value<Text> test;
  Value<Text> component;
  Value<Text> name;
  Value<Text> probes;
  Value<Text> side;
  Value<Conformity> result;
  Judge_reading reading;
  Value<Quantity> resistance;
  Judge_temperature temperature;
  Value<Quantity> nominal;
  Judge_limit limit;
  Judge_limit manufacturing;
  Value<Quantity> uncertainty;
  List<Judge_contribution> budget;
  List<Judge_mode> modes;
  List<Judge_other> others;
  Judge_meaning means;
  Judge_limit reverse;
  Judge_harness harness;
  Judge_response response;
  List<Value<Text>> remarks;
  List<Value<Text>> settle;
};
struct Judgement_report : Record_base {
  Value<Text> format;
  Judge_program program;
  Value<Text> profile;
  Value<std::int64_t> revision;
  Value<Conformity> result;
  Judge_meter meter;
  Judge_leads leads;
  Judge_rule rule;
  Judge_range room;
  List<Judged_test> verdicts;
  List<Judge_set> sets;
  List<Value<Text>> cautions;
  List<Value<Text>> problems;
};

#define OHMLORE_JUDGEMENT_RECORD(type, name)                                                                 \
  extern const Record name;                                                                                  \
  constexpr const Record* description(std::type_identity<type>) { return &name; }
OHMLORE_JUDGEMENT_RECORD(Judge_rule, judgement_rule_record)
OHMLORE_JUDGEMENT_RECORD(Judge_reading, judgement_reading_record)
OHMLORE_JUDGEMENT_RECORD(Judge_temperature, judgement_temperature_record)
OHMLORE_JUDGEMENT_RECORD(Judge_limit, judgement_limit_record)
OHMLORE_JUDGEMENT_RECORD(Judge_contribution, judgement_contribution_record)
OHMLORE_JUDGEMENT_RECORD(Judge_mode, judgement_mode_record)
OHMLORE_JUDGEMENT_RECORD(Judge_other, judgement_other_record)
OHMLORE_JUDGEMENT_RECORD(Judge_meaning, judgement_meaning_record)
OHMLORE_JUDGEMENT_RECORD(Judge_harness, judgement_harness_record)
OHMLORE_JUDGEMENT_RECORD(Judge_response, judgement_response_record)
OHMLORE_JUDGEMENT_RECORD(Judge_set, judgement_set_record)
OHMLORE_JUDGEMENT_RECORD(Judged_test, judged_test_record)

// clang-format off
constexpr Field judgement_program_fields[] = {
    {OHMLORE_MEMBER(Judge_program, name), .doc = "Its name.", .example = R"("ohmlore")", .required = true},
    {OHMLORE_MEMBER(Judge_program, version), .doc = "Its version.", .example = R"("1.0.0")", .required = true},
};
constexpr Field judgement_meter_fields[] = {
    {OHMLORE_MEMBER(Judge_meter, of_reading), .doc = "The share of the reading.", .example = R"("0.8 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Judge_meter, counts), .doc = "Counts of the last digit.", .example = R"(3)", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Judge_meter, display_counts), .doc = "How many counts its display has.", .example = R"(6000)", .required = true, .limits = any_number},
};
constexpr Field judgement_leads_fields[] = {
    {OHMLORE_MEMBER(Judge_leads, resistance), .doc = "Their resistance.", .example = R"("0.3 Ω")", .required = true, .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Judge_leads, half_width), .doc = "How far it may be off, either way.", .example = R"("0.2 Ω")", .required = true, .dimensions = Dimension::resistance},
};
constexpr Field judgement_rule_fields[] = {
    {OHMLORE_MEMBER(Judge_rule, name), .doc = "guarded, guarded_acceptance, simple or stated.", .example = R"("guarded")", .required = true},
    {OHMLORE_MEMBER(Judge_rule, false_acceptance), .doc = "`within` where conformity is at least 100 % less this probable.", .example = R"("5 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Judge_rule, false_rejection), .doc = "`outside` where one limit is passed with at least 100 % less this.", .example = R"("5 %")", .required = true, .dimensions = Dimension::ratio},
};
constexpr Field judgement_range_fields[] = {
    {OHMLORE_MEMBER(Judge_range, low), .doc = "The lower one.", .example = R"("5 °C")", .required = true, .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Judge_range, high), .doc = "The upper one.", .example = R"("30 °C")", .required = true, .dimensions = Dimension::temperature},
};
constexpr Field judgement_reading_fields[] = {
    {OHMLORE_MEMBER(Judge_reading, shown), .doc = "As shown, leads included; of an OL where its range ends.", .example = R"("15.25 kΩ")", .required = true, .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Judge_reading, over_range), .doc = "OL: more than its range's maximum.", .example = R"(false)", .required = true},
};
constexpr Field judgement_temperature_fields[] = {
    {OHMLORE_MEMBER(Judge_temperature, at), .doc = "The temperature.", .example = R"("14 °C")", .required = true, .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Judge_temperature, half_width), .doc = "How far the thermometer may be off, either way.", .example = R"("1 K")", .required = true, .dimensions = Dimension::temperature_difference},
    {OHMLORE_MEMBER(Judge_temperature, place), .doc = "Where it was taken.", .example = R"("on_part")", .required = true},
    {OHMLORE_MEMBER(Judge_temperature, since_running), .doc = "How long before the part ran; absent if not that day.", .example = R"("1800 s")", .dimensions = Dimension::time},
};
constexpr Field judgement_limit_fields[] = {
    {OHMLORE_MEMBER(Judge_limit, result), .doc = "The result.", .example = R"("within")", .required = true},
    {OHMLORE_MEMBER(Judge_limit, basis), .doc = "Where the limits come from.", .example = R"("service_limit")", .required = true},
    {OHMLORE_MEMBER(Judge_limit, words), .doc = "The limits as they are stated.", .example = R"("± 3 K")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Judge_limit, low), .doc = "The lower limit at that temperature, or the least of the room range.", .example = R"("14.3 kΩ")", .required = true, .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Judge_limit, high), .doc = "The upper one, or the greatest; absent: none.", .example = R"("18.1 kΩ")", .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Judge_limit, below), .doc = "Probability of less than the lower limit; over a room range, at least.", .example = R"("0.4 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Judge_limit, within), .doc = "Probability of conformity; over a room range, at least.", .example = R"("99.6 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Judge_limit, above), .doc = "Probability of more than the upper limit; over a room range, at least.", .example = R"("0 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Judge_limit, within_at_most), .doc = "Probability of conformity at the most favourable temperature of the room range; as `within` where the temperature is known.", .example = R"("99.6 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Judge_limit, best), .doc = "Of what is too close: the probability that a reading in the middle would have.", .example = R"("99.9 %")", .dimensions = Dimension::ratio},
};
constexpr Field judgement_contribution_fields[] = {
    {OHMLORE_MEMBER(Judge_contribution, from), .doc = "What contributes.", .example = R"("meter")", .required = true},
    {OHMLORE_MEMBER(Judge_contribution, half_width), .doc = "How far it may be off either way, all within alike.", .example = R"("1 K")", .required = true, .dimensions = Dimension::resistance | Dimension::temperature_difference},
    {OHMLORE_MEMBER(Judge_contribution, per_unit), .doc = "How the reading changes with it: for each kelvin, or for each ohm.", .example = R"("-682 Ω")", .required = true, .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Judge_contribution, uncertainty), .doc = "Its standard uncertainty.", .example = R"("394 Ω")", .required = true, .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Judge_contribution, share), .doc = "Its share of the variance.", .example = R"("83 %")", .required = true, .dimensions = Dimension::ratio},
};
constexpr Field judgement_mode_fields[] = {
    {OHMLORE_MEMBER(Judge_mode, mode), .doc = "The failure mode.", .example = R"("open")", .required = true},
    {OHMLORE_MEMBER(Judge_mode, verdict), .doc = "What is said of it.", .example = R"("excluded")", .required = true},
    {OHMLORE_MEMBER(Judge_mode, why), .doc = "Why.", .example = R"("with it the reading would be another")", .required = true},
};
constexpr Field judgement_other_fields[] = {
    {OHMLORE_MEMBER(Judge_other, component), .doc = "The component.", .example = R"("return_sensor")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Judge_other, test), .doc = "Its test; absent: no test names these contacts.", .example = R"("return_sensor_resistance")", .form = Form::id},
    {OHMLORE_MEMBER(Judge_other, probes), .doc = "The contacts on which it reads so.", .example = R"("X4.1 to X4.3")", .required = true},
    {OHMLORE_MEMBER(Judge_other, within), .doc = "The probability that a healthy one reads so.", .example = R"("97 %")", .required = true, .dimensions = Dimension::ratio},
};
constexpr Field judgement_meaning_fields[] = {
    {OHMLORE_MEMBER(Judge_meaning, at), .doc = "By its nominal curve.", .example = R"("14.5 °C")", .required = true, .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Judge_meaning, low), .doc = "The least, with meter and manufacturing tolerance.", .example = R"("14 °C")", .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Judge_meaning, high), .doc = "The greatest.", .example = R"("15 °C")", .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Judge_meaning, above_thermometer), .doc = "`at` less the thermometer's.", .example = R"("0.5 K")", .dimensions = Dimension::temperature_difference},
};
constexpr Field judgement_harness_fields[] = {
    {OHMLORE_MEMBER(Judge_harness, result), .doc = "Whether the harness adds nothing.", .example = R"("within")", .required = true},
    {OHMLORE_MEMBER(Judge_harness, mode), .doc = "The failure mode of the harness; absent: none is seen.", .example = R"("open")"},
    {OHMLORE_MEMBER(Judge_harness, difference), .doc = "Plug less part.", .example = R"("0.4 Ω")", .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Judge_harness, uncertainty), .doc = "Its standard uncertainty.", .example = R"("0.3 Ω")", .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Judge_harness, words), .doc = "In words.", .example = R"("the harness is open")", .required = true},
};
constexpr Field judgement_response_fields[] = {
    {OHMLORE_MEMBER(Judge_response, result), .doc = "Whether it answered.", .example = R"("within")", .required = true},
    {OHMLORE_MEMBER(Judge_response, change), .doc = "After less before.", .example = R"("-2.1 kΩ")", .required = true, .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Judge_response, warmed_by), .doc = "The warming that the change means.", .example = R"("3.4 K")", .dimensions = Dimension::temperature_difference},
    {OHMLORE_MEMBER(Judge_response, words), .doc = "In words.", .example = R"("fell as it must")", .required = true},
};
constexpr Field judgement_set_fields[] = {
    {OHMLORE_MEMBER(Judge_set, result), .doc = "The result.", .example = R"("within")", .required = true},
    {OHMLORE_MEMBER(Judge_set, words), .doc = "In words.", .example = R"("they add up")", .required = true},
};
constexpr Field judged_test_fields[] = {
    {OHMLORE_MEMBER(Judged_test, test), .doc = "The test.", .example = R"("flow_sensor_resistance")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Judged_test, component), .doc = "Its component.", .example = R"("flow_sensor")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Judged_test, name), .doc = "The component's name; may be empty.", .example = R"("Flow sensor")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Judged_test, probes), .doc = "The contacts of the leads.", .example = R"("X4.1 to X4.2")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Judged_test, side), .doc = "Where they were put.", .example = R"("at_board_plug")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Judged_test, result), .doc = "By all that was read.", .example = R"("within")", .required = true},
    {OHMLORE_MEMBER(Judged_test, reading), .doc = "What the meter showed.", .example = R"({ "shown": "15.25 kΩ", "over_range": false })", .required = true},
    {OHMLORE_MEMBER(Judged_test, resistance), .doc = "Leads subtracted.", .example = R"("15.25 kΩ")", .required = true, .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Judged_test, temperature), .doc = "The part's temperature; absent: not given.", .example = R"({ "at": "14 °C", "half_width": "1 K", "place": "on_part" })"},
    {OHMLORE_MEMBER(Judged_test, nominal), .doc = "What a part without tolerance reads there.", .example = R"("16.06 kΩ")", .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Judged_test, limit), .doc = "By the limit that decides.", .example = R"({ "result": "within", "basis": "service_limit", "words": "± 3 K", "low": "14 kΩ", "high": "18 kΩ", "below": "0 %", "within": "100 %", "above": "0 %", "within_at_most": "100 %" })", .required = true},
    {OHMLORE_MEMBER(Judged_test, manufacturing), .doc = "By the band within which it is made.", .example = R"({ "result": "too_close", "basis": "manufacturing", "words": "± 1 %", "low": "15.9 kΩ", "high": "16.2 kΩ", "below": "80 %", "within": "20 %", "above": "0 %", "within_at_most": "20 %" })"},
    {OHMLORE_MEMBER(Judged_test, uncertainty), .doc = "Combined standard uncertainty.", .example = R"("430 Ω")", .required = true, .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Judged_test, budget), .doc = "What it is made of, largest first.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Judged_test, modes), .doc = "What is said of each failure mode.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Judged_test, others), .doc = "Parts on this connector that the reading fits better.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Judged_test, means), .doc = "The temperature that the reading means.", .example = R"({ "at": "14.5 °C" })"},
    {OHMLORE_MEMBER(Judged_test, reverse), .doc = "With the leads exchanged.", .example = R"({ "result": "within", "basis": "expectation", "words": "at least 1 MΩ", "low": "1 MΩ", "below": "0 %", "within": "100 %", "above": "0 %", "within_at_most": "100 %" })"},
    {OHMLORE_MEMBER(Judged_test, harness), .doc = "Plug and part beside each other.", .example = R"({ "result": "outside", "mode": "open", "words": "the harness is open" })"},
    {OHMLORE_MEMBER(Judged_test, response), .doc = "What came of the response.", .example = R"({ "result": "within", "change": "-2.1 kΩ", "words": "fell as it must" })"},
    {OHMLORE_MEMBER(Judged_test, remarks), .doc = "What limits the answer, and what it does not say.", .example = R"(["holds in the condition \"cold\" only"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Judged_test, settle), .doc = "What would settle what is too close.", .example = R"(["a thermometer that is within ± 0.4 K"])", .required = true, .limits = any_number},
};
constexpr Field judgement_fields[] = {
    {OHMLORE_MEMBER(Judgement_report, format), .doc = "The format of the report and its version.", .example = R"("ohmlore-judgement/1.0")", .required = true, .constant = "ohmlore-judgement/1.0"},
    {OHMLORE_MEMBER(Judgement_report, program), .doc = "What wrote it.", .example = R"({ "name": "ohmlore", "version": "1.0.0" })", .required = true},
    {OHMLORE_MEMBER(Judgement_report, profile), .doc = "The profile.", .example = R"("orrinvale-ov4410")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Judgement_report, revision), .doc = "Its revision.", .example = R"(3)", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Judgement_report, cautions), .doc = "What applies to all work on the appliance, in this order: to be shown.", .example = R"(["Dead test only: never measure resistance on an energised circuit."])", .required = true, .limits = {1, 100}},
    {OHMLORE_MEMBER(Judgement_report, result), .doc = "The worst of all.", .example = R"("within")", .required = true},
    {OHMLORE_MEMBER(Judgement_report, meter), .doc = "The meter.", .example = R"({ "of_reading": "0.8 %", "counts": 3, "display_counts": 6000 })", .required = true},
    {OHMLORE_MEMBER(Judgement_report, leads), .doc = "The leads.", .example = R"({ "resistance": "0.3 Ω", "half_width": "0.2 Ω" })", .required = true},
    {OHMLORE_MEMBER(Judgement_report, rule), .doc = "The decision rule.", .example = R"({ "name": "guarded", "false_acceptance": "5 %", "false_rejection": "5 %" })", .required = true},
    {OHMLORE_MEMBER(Judgement_report, room), .doc = "Where a temperature is not known, the range that is judged over.", .example = R"({ "low": "5 °C", "high": "30 °C" })", .required = true},
    {OHMLORE_MEMBER(Judgement_report, verdicts), .doc = "The verdicts, as the readings were given.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Judgement_report, sets), .doc = "What several readings of one component say together.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Judgement_report, problems), .doc = "Why a reading has no verdict.", .example = R"(["flow: the model does not reach there"])", .required = true, .limits = any_number},
};
// clang-format on

constinit const Record judgement_rule_record = {
    "judgement_rule", "Decision rule", "Which probability of a wrong decision is accepted (JCGM 106).",
    judgement_rule_fields};
constinit const Record judgement_reading_record = {"judgement_reading", "Judged reading",
                                                   "What the meter showed.", judgement_reading_fields};
constinit const Record judgement_temperature_record = {"judgement_temperature", "Judged temperature",
                                                       "The temperature that the part was taken to have.",
                                                       judgement_temperature_fields};
constinit const Record judgement_limit_record = {
    "judgement_limit", "Judged limit", "A reading beside one pair of limits.", judgement_limit_fields};
constinit const Record judgement_contribution_record = {"judgement_contribution", "Uncertainty contribution",
                                                        "One line of the uncertainty budget (JCGM 100).",
                                                        judgement_contribution_fields};
constinit const Record judgement_mode_record = {
    "judgement_mode", "Judged mode", "What the reading says of one failure mode.", judgement_mode_fields};
constinit const Record judgement_other_record = {"judgement_other", "Other part",
                                                 "A part on the same connector that the reading fits.",
                                                 judgement_other_fields};
constinit const Record judgement_meaning_record = {"judgement_meaning", "Meant temperature",
                                                   "The temperature that a sensor's reading means.",
                                                   judgement_meaning_fields};
constinit const Record judgement_harness_record = {
    "judgement_harness", "Judged harness", "Plug and part beside each other.", judgement_harness_fields};
constinit const Record judgement_response_record = {"judgement_response", "Judged response",
                                                    "What came of the response that the test asks for.",
                                                    judgement_response_fields};
constinit const Record judgement_set_record = {"judgement_set", "Judged set",
                                               "What several readings of one component say together.",
                                               judgement_set_fields};
constinit const Record judged_test_record = {"judged_test", "Judged test", "The verdict on one reading.",
                                             judged_test_fields};

}

constinit const Record judgement_program_record = {"judgement_program", "Judgement program",
                                                   "What wrote the report.", judgement_program_fields};
constinit const Record judgement_meter_record = {
    "judgement_meter", "Judging meter",
    "The meter's accuracy: ±(a share of the reading + counts of the last digit).", judgement_meter_fields};
constinit const Record judgement_leads_record = {
    "judgement_leads", "Judging leads", "What was subtracted for the leads.", judgement_leads_fields};
constinit const Record judgement_range_record = {"judgement_range", "Temperature range",
                                                 "Between two temperatures.", judgement_range_fields};

constinit const Record judgement_record = {"judgement", "Judgement", "What one run of `ohmlore judge` found.",
                                           judgement_fields};

}
