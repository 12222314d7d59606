// The report of plans. Nothing reads it back: the structs are here only to be described.
#include "model/types.h"
#include "ohmlore/plan.h"
#include "publish/records.h"

namespace ohmlore {
namespace {

struct Plan_program : Record_base {
  Value<Text> name;
  Value<Text> version;
};
struct Reported_code : Record_base {
  Value<Text> id, display, meaning, raised, note;
};
struct Reported_mode : Record_base {
  Value<Mode> mode;
  Value<Standing> standing;
};
struct Reported_suspect : Record_base {
  Value<Suspect_kind> kind;
  Value<Text> id, name, where, orderable;
  List<Value<Text>> codes;
  Value<Standing> standing;
  Value<Quantity> before, now;
  List<Reported_mode> modes;
  List<Value<Text>> not_decidable, notes;
};
struct Reported_limits : Record_base {
  Value<Quantity> at, low, high;
};
struct Reported_left : Record_base {
  Value<std::int64_t> suspect;
  List<Value<Mode>> modes;
  Value<Text> why;
};
struct Reported_outcome : Record_base {
  List<Value<Showing>> shown;
  Value<Text> words;
  Value<Quantity> probability;
  List<Value<Text>> rules_out, points_to, not_seen;
  Value<Text> next;
  List<Value<Text>> then;
  List<Reported_outcome> outcomes;
};
struct Reported_step : Record_base {
  Value<Text> test, component, name, probes, side;
  List<Value<Text>> prepare, leads;
  List<Reported_limits> limits;
  Value<Text> limit_words, response, note;
  Value<Quantity> work, looked_at;
  List<Reported_left> look_first;
  List<Reported_outcome> outcomes;
};
struct Plan_report : Record_base {
  Value<Text> format;
  Plan_program program;
  Value<Text> profile;
  Value<std::int64_t> revision;
  List<Value<Text>> cautions;
  List<Reported_code> codes;
  List<Reported_suspect> suspects;
  List<Value<Text>> conclusion;
  List<Reported_step> steps, more;
  List<Reported_left> left;
  List<Value<Text>> all_healthy, remarks, problems;
};

#define OHMLORE_PLAN_RECORD(type, name)                                                                      \
  extern const Record name;                                                                                  \
  constexpr const Record* description(std::type_identity<type>) { return &name; }
OHMLORE_PLAN_RECORD(Plan_program, plan_program_record)
OHMLORE_PLAN_RECORD(Reported_code, plan_code_record)
OHMLORE_PLAN_RECORD(Reported_mode, plan_mode_record)
OHMLORE_PLAN_RECORD(Reported_suspect, plan_suspect_record)
OHMLORE_PLAN_RECORD(Reported_limits, plan_limits_record)
OHMLORE_PLAN_RECORD(Reported_left, plan_left_record)
OHMLORE_PLAN_RECORD(Reported_outcome, plan_outcome_record)
OHMLORE_PLAN_RECORD(Reported_step, plan_step_record)

constexpr Limits any_number = {0, 1'000'000'000};

// clang-format off
constexpr Field plan_program_fields[] = {
    {OHMLORE_MEMBER(Plan_program, name), .doc = "Its name.", .example = R"("ohmlore")", .required = true},
    {OHMLORE_MEMBER(Plan_program, version), .doc = "Its version.", .example = R"("1.0.0")", .required = true},
};
constexpr Field plan_code_fields[] = {
    {OHMLORE_MEMBER(Reported_code, id), .doc = "Its id in the profile.", .example = R"("H1")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Reported_code, display), .doc = "As the appliance shows it.", .example = R"("H1")", .required = true},
    {OHMLORE_MEMBER(Reported_code, meaning), .doc = "What it means.", .example = R"("flow sensor out of range")", .required = true},
    {OHMLORE_MEMBER(Reported_code, raised), .doc = "The reading that raises it.", .example = R"("below 350 Ω at flow_sensor")"},
    {OHMLORE_MEMBER(Reported_code, note), .doc = "What else to know.", .example = R"("may show for a minute after mains returns")"},
};
constexpr Field plan_mode_fields[] = {
    {OHMLORE_MEMBER(Reported_mode, mode), .doc = "The failure mode; absent: a board, a supply or a cause.", .example = R"("open")"},
    {OHMLORE_MEMBER(Reported_mode, standing), .doc = "How it stands after what was read.", .example = R"("suspected")", .required = true},
};
constexpr Field plan_suspect_fields[] = {
    {OHMLORE_MEMBER(Reported_suspect, kind), .doc = "What is suspected.", .example = R"("component")", .required = true},
    {OHMLORE_MEMBER(Reported_suspect, id), .doc = "The component, or the connector of a harness.", .example = R"("flow_sensor")", .form = Form::id},
    {OHMLORE_MEMBER(Reported_suspect, name), .doc = "In words.", .example = R"("Flow sensor")", .required = true},
    {OHMLORE_MEMBER(Reported_suspect, where), .doc = "Where it is.", .example = R"("clipped to the flow pipe")"},
    {OHMLORE_MEMBER(Reported_suspect, orderable), .doc = "The maker's spare number.", .example = R"("OV-S-118")"},
    {OHMLORE_MEMBER(Reported_suspect, codes), .doc = "The codes that it can cause, by their ids.", .example = R"(["H1"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Reported_suspect, standing), .doc = "How it stands after what was read.", .example = R"("suspected")", .required = true},
    {OHMLORE_MEMBER(Reported_suspect, before), .doc = "How likely by the order in the profile alone.", .example = R"("48 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Reported_suspect, now), .doc = "How likely after what was read.", .example = R"("48 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Reported_suspect, modes), .doc = "How it may have failed.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Reported_suspect, not_decidable), .doc = "Why no dead test decides about it, or about some of its modes.", .example = R"(["hydraulic"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Reported_suspect, notes), .doc = "What else to know.", .example = R"(["find out why it tripped"])", .required = true, .limits = any_number},
};
constexpr Field plan_limits_fields[] = {
    {OHMLORE_MEMBER(Reported_limits, at), .doc = "At this temperature of the part; absent: at any.", .example = R"("20 °C")", .dimensions = Dimension::temperature},
    {OHMLORE_MEMBER(Reported_limits, low), .doc = "The least.", .example = R"("10.9 kΩ")", .required = true, .dimensions = Dimension::resistance},
    {OHMLORE_MEMBER(Reported_limits, high), .doc = "The greatest; absent: none.", .example = R"("14.4 kΩ")", .dimensions = Dimension::resistance},
};
constexpr Field plan_left_fields[] = {
    {OHMLORE_MEMBER(Reported_left, suspect), .doc = "Its place among the suspects, from 0.", .example = R"(2)", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Reported_left, modes), .doc = "Those of its modes that are meant.", .example = R"(["seized"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Reported_left, why), .doc = "Why no dead test decides about it, or about some of its modes.", .example = R"("hydraulic")"},
};
constexpr Field plan_outcome_fields[] = {
    {OHMLORE_MEMBER(Reported_outcome, shown), .doc = "The readings that are meant.", .example = R"(["over_range", "higher"])", .required = true, .limits = {1, 6}},
    {OHMLORE_MEMBER(Reported_outcome, words), .doc = "The same in words.", .example = R"("OL or too high")", .required = true},
    {OHMLORE_MEMBER(Reported_outcome, probability), .doc = "How likely, where this step is come to.", .example = R"("20 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Reported_outcome, rules_out), .doc = "What it rules out that was not ruled out before.", .example = R"(["Flow sensor: open, short"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Reported_outcome, points_to), .doc = "What is left once a reading was not healthy, the likeliest first.", .example = R"(["Flow sensor: open"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Reported_outcome, not_seen), .doc = "What may hide behind a healthy reading all the same.", .example = R"(["Flow sensor: intermittent"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Reported_outcome, next), .doc = "The test to go on with; absent: none is worth its work.", .example = R"("return_sensor_resistance")", .form = Form::id},
    {OHMLORE_MEMBER(Reported_outcome, then), .doc = "What to do where no test helps further.", .example = R"(["read the same two ends on the part itself"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Reported_outcome, outcomes), .doc = "Those of `next`, after a reading that was not healthy; empty where one plans again.", .example = R"([])", .required = true, .limits = any_number},
};
constexpr Field plan_step_fields[] = {
    {OHMLORE_MEMBER(Reported_step, test), .doc = "The test.", .example = R"("flow_sensor_resistance")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Reported_step, component), .doc = "Its component.", .example = R"("flow_sensor")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Reported_step, name), .doc = "The component's name; may be empty.", .example = R"("Flow sensor")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Reported_step, probes), .doc = "The contacts of the leads.", .example = R"("X4.1 to X4.2")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Reported_step, side), .doc = "Where they are put.", .example = R"("at_board_plug")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Reported_step, prepare), .doc = "What to do first, in this order.", .example = R"(["withdraw X4"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Reported_step, leads), .doc = "Where each lead goes, with the colours of the wires.", .example = R"(["X4.1 (orange, flow sensor) of the plug"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Reported_step, limits), .doc = "What a healthy part reads.", .example = R"([{ "at": "20 °C", "low": "10.9 kΩ", "high": "14.4 kΩ" }])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Reported_step, limit_words), .doc = "What these limits are; may be empty.", .example = R"("service limit ± 3 K")", .required = true, .form = Form::any},
    {OHMLORE_MEMBER(Reported_step, response), .doc = "What else a healthy part does.", .example = R"("falls when warmed: warm it in the hand")"},
    {OHMLORE_MEMBER(Reported_step, note), .doc = "What else to know.", .example = R"("do not spread the contacts")"},
    {OHMLORE_MEMBER(Reported_step, work), .doc = "What it takes after the steps before; there to compare, and no more.", .example = R"("300 s")", .required = true, .dimensions = Dimension::time},
    {OHMLORE_MEMBER(Reported_step, looked_at), .doc = "How likely the cause is one that this test can see.", .example = R"("72 %")", .required = true, .dimensions = Dimension::ratio},
    {OHMLORE_MEMBER(Reported_step, look_first), .doc = "What no test decides, and is likelier than what this one sees.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Reported_step, outcomes), .doc = "What each reading would mean, healthy first; empty among `more`.", .example = R"([])", .required = true, .limits = any_number},
};
constexpr Field plan_fields[] = {
    {OHMLORE_MEMBER(Plan_report, format), .doc = "The format of the report and its version.", .example = R"("ohmlore-plan/1.0")", .required = true, .constant = "ohmlore-plan/1.0"},
    {OHMLORE_MEMBER(Plan_report, program), .doc = "What wrote it.", .example = R"({ "name": "ohmlore", "version": "1.0.0" })", .required = true},
    {OHMLORE_MEMBER(Plan_report, profile), .doc = "The profile.", .example = R"("orrinvale-ov4410")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Plan_report, revision), .doc = "Its revision.", .example = R"(3)", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Plan_report, cautions), .doc = "What applies to all work on the appliance, in this order: to be shown.", .example = R"(["Dead test only: never measure resistance on an energised circuit."])", .required = true, .limits = {1, 100}},
    {OHMLORE_MEMBER(Plan_report, codes), .doc = "The codes that are planned for.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Plan_report, suspects), .doc = "What can cause them, the likeliest first before anything was read.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Plan_report, conclusion), .doc = "What the readings so far say; empty without readings.", .example = R"(["nothing abnormal has been read so far"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Plan_report, steps), .doc = "The tests in their order, as long as everything reads healthy.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Plan_report, more), .doc = "Tests that only an outcome asks for.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Plan_report, left), .doc = "What remains when everything reads healthy, the likeliest first.", .example = R"([])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Plan_report, all_healthy), .doc = "What to do then: to be shown.", .example = R"(["no dead test shows a board to be good or bad"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Plan_report, remarks), .doc = "What to know of this plan.", .example = R"(["this differs between models: say which with --model"])", .required = true, .limits = any_number},
    {OHMLORE_MEMBER(Plan_report, problems), .doc = "Why a reading is left out.", .example = R"(["flow_sensor_resistance: its model does not reach there"])", .required = true, .limits = any_number},
};
// clang-format on

constinit const Record plan_program_record = {"plan_program", "Plan program", "What wrote the plan.",
                                              plan_program_fields};
constinit const Record plan_code_record = {"plan_code", "Planned code", "A code that is planned for.",
                                           plan_code_fields};
constinit const Record plan_mode_record = {"plan_mode", "Suspected mode", "One way to have failed.",
                                           plan_mode_fields};
constinit const Record plan_suspect_record = {
    "plan_suspect", "Planned suspect", "One thing that may be the cause, however many entries suspect it.",
    plan_suspect_fields};
constinit const Record plan_limits_record = {"plan_limits", "Planned limits", "What a healthy part reads.",
                                             plan_limits_fields};
constinit const Record plan_left_record = {
    "plan_left", "Left suspect", "A suspect that is to be looked at without a test.", plan_left_fields};
constinit const Record plan_outcome_record = {"plan_outcome", "Planned outcome",
                                              "What one reading, or several that say the same, would mean.",
                                              plan_outcome_fields};
constinit const Record plan_step_record = {"plan_step", "Planned step", "One test of a plan.",
                                           plan_step_fields};

}

constinit const Record plan_record = {"plan", "Plan", "What `ohmlore plan` found.", plan_fields};

}
