// The record of a job.
#include "publish/job_records.h"
#include "publish/records.h"

namespace ohmlore {

#define OHMLORE_JOB_RECORD(type, name)                                                                       \
  extern const Record name;                                                                                  \
  constexpr const Record* description(std::type_identity<type>) { return &name; }
OHMLORE_JOB_RECORD(Described_job_program, job_program_record)
OHMLORE_JOB_RECORD(Described_job_appliance, job_appliance_record)
OHMLORE_JOB_RECORD(Described_job_proof, job_proof_record)
OHMLORE_JOB_RECORD(Described_job_charge, job_charge_record)
OHMLORE_JOB_RECORD(Described_job_meter, job_meter_record)
OHMLORE_JOB_RECORD(Described_job_reading, job_reading_record)
OHMLORE_JOB_RECORD(Described_job_source, job_source_record)
OHMLORE_JOB_RECORD(Described_job_part, job_part_record)

namespace {

constexpr Limits any_number = {0, 1'000'000'000};
constexpr Limits some = {0, 1000};

// clang-format off
constexpr Field program_fields[] = {
    {OHMLORE_MEMBER(Described_job_program, name), .doc = "Its name.", .example = R"("ohmlore")", .required = true},
    {OHMLORE_MEMBER(Described_job_program, version), .doc = "Its version.", .example = R"("1.0.0")", .required = true},
};
constexpr Field appliance_fields[] = {
    {OHMLORE_MEMBER(Described_job_appliance, maker), .doc = "Its maker.", .example = R"("Orrinvale")"},
    {OHMLORE_MEMBER(Described_job_appliance, model), .doc = "Its model.", .example = R"("Larch 24 C")"},
    {OHMLORE_MEMBER(Described_job_appliance, serial), .doc = "Its serial number.", .example = R"("41-002317")"},
    {OHMLORE_MEMBER(Described_job_appliance, board), .doc = "Part number and issue of its control board.", .example = R"("OV-4410 issue C")"},
    {OHMLORE_MEMBER(Described_job_appliance, software), .doc = "Software of the board.", .example = R"("2.2")"},
};
constexpr Field proof_fields[] = {
    {OHMLORE_MEMBER(Described_job_proof, where), .doc = "Where it was proved dead: supply terminals, connector.", .example = R"("X1.1, X1.2 and X1.3, to each other")", .required = true},
    {OHMLORE_MEMBER(Described_job_proof, detector), .doc = "The two-pole voltage detector.", .example = R"("detector 7, serial 5521")"},
    {OHMLORE_MEMBER(Described_job_proof, seen), .doc = "What it showed.", .example = R"("no voltage")"},
    {OHMLORE_MEMBER(Described_job_proof, checked_before), .doc = "Checked on a known source before.", .example = R"(true)"},
    {OHMLORE_MEMBER(Described_job_proof, checked_after), .doc = "Checked on a known source after.", .example = R"(true)"},
};
constexpr Field charge_fields[] = {
    {OHMLORE_MEMBER(Described_job_charge, where), .doc = "The contacts.", .example = R"("X11.1 and X11.2")", .required = true},
    {OHMLORE_MEMBER(Described_job_charge, waited), .doc = "How long was waited.", .example = R"("2 min")"},
    {OHMLORE_MEMBER(Described_job_charge, seen), .doc = "The voltage that was read then.", .example = R"("0.4 V dc")"},
};
constexpr Field meter_fields[] = {
    {OHMLORE_MEMBER(Described_job_meter, name), .doc = "Maker and model.", .example = R"("handheld, 6000 counts")"},
    {OHMLORE_MEMBER(Described_job_meter, serial), .doc = "Its serial number.", .example = R"("880412")"},
    {OHMLORE_MEMBER(Described_job_meter, calibrated), .doc = "When it was last calibrated.", .example = R"("2026-03")", .form = Form::date},
    {OHMLORE_MEMBER(Described_job_meter, accuracy), .doc = "± (share of the reading + counts), as for `ohmlore judge --meter`.", .example = R"("0.8 % + 3")"},
    {OHMLORE_MEMBER(Described_job_meter, leads), .doc = "What the leads read with their tips together; 0 where they were nulled.", .example = R"("0.2 Ω")"},
};
constexpr Field reading_fields[] = {
    {OHMLORE_MEMBER(Described_job_reading, test), .doc = "The test.", .example = R"("flow_sensor_resistance")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Described_job_reading, reading), .doc = "What the meter showed, leads included: a resistance or OL.", .example = R"("15.25 kΩ")", .required = true},
    {OHMLORE_MEMBER(Described_job_reading, time), .doc = "When.", .example = R"("10:42")"},
    {OHMLORE_MEMBER(Described_job_reading, side), .doc = "Where the leads were put.", .example = R"("at_board_plug")"},
    {OHMLORE_MEMBER(Described_job_reading, probes), .doc = "On which contacts.", .example = R"("X4.1 to X4.2")"},
    {OHMLORE_MEMBER(Described_job_reading, range), .doc = "Where the meter's range ends; without it, the meter chose it.", .example = R"("60 kΩ")"},
    {OHMLORE_MEMBER(Described_job_reading, temperature), .doc = "Of the part, with what the thermometer may be off.", .example = R"("15 °C ± 1 K")"},
    {OHMLORE_MEMBER(Described_job_reading, taken), .doc = "Where the temperature was taken.", .example = R"("on_part")"},
    {OHMLORE_MEMBER(Described_job_reading, minutes_since_running), .doc = "How long before the part last ran; absent: not that day.", .example = R"(40)", .limits = {0, 99999}},
    {OHMLORE_MEMBER(Described_job_reading, reverse), .doc = "With the leads exchanged.", .example = R"("OL")"},
    {OHMLORE_MEMBER(Described_job_reading, twin), .doc = "Of the twin that the test compares with.", .example = R"("15.4 kΩ")"},
    {OHMLORE_MEMBER(Described_job_reading, at_part), .doc = "Of the same two ends on the part itself.", .example = R"("15.2 kΩ")"},
    {OHMLORE_MEMBER(Described_job_reading, after), .doc = "After what the test asks for: warmed, moved.", .example = R"("11.8 kΩ")"},
    {OHMLORE_MEMBER(Described_job_reading, after_temperature), .doc = "Of the part then.", .example = R"("24 °C ± 2 K")"},
    {OHMLORE_MEMBER(Described_job_reading, answered), .doc = "Whether it answered as the test asks, seen by eye.", .example = R"(true)"},
    {OHMLORE_MEMBER(Described_job_reading, note), .doc = "What else was seen.", .example = R"("pin 2 green")"},
    {OHMLORE_MEMBER(Described_job_reading, result), .doc = "What the program said of it when it wrote the record.", .example = R"("within")"},
    {OHMLORE_MEMBER(Described_job_reading, limits), .doc = "The limits that it judged by.", .example = R"("13.78 kΩ to 18.37 kΩ")"},
};
constexpr Field source_fields[] = {
    {OHMLORE_MEMBER(Described_job_source, id), .doc = "Its id.", .example = R"("ntc-10k-b3977-1pct")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Described_job_source, revision), .doc = "Its revision.", .example = R"(2)", .limits = any_number},
    {OHMLORE_MEMBER(Described_job_source, hash), .doc = "SHA-256 of its file.", .example = R"("sha256:2c26b46b68ffc68ff99b453c1d30413413422d706483bfa0f98a5e886266e7ae")"},
};
constexpr Field part_fields[] = {
    {OHMLORE_MEMBER(Described_job_part, component), .doc = "The component.", .example = R"("flow_sensor")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Described_job_part, orderable), .doc = "The maker's spare number.", .example = R"("OV-S-118")"},
    {OHMLORE_MEMBER(Described_job_part, serial), .doc = "Of the new part.", .example = R"("2025-48")"},
};
constexpr Field job_fields[] = {
    {OHMLORE_MEMBER(Described_job, format), .doc = "The format of the record and its version.", .example = R"("ohmlore-job/1.0")", .required = true, .constant = job_format},
    {OHMLORE_MEMBER(Described_job, program), .doc = "What wrote it.", .example = R"({ "name": "ohmlore", "version": "1.0.0" })"},
    {OHMLORE_MEMBER(Described_job, profile), .doc = "The profile.", .example = R"("orrinvale-ov4410")", .required = true, .form = Form::id},
    {OHMLORE_MEMBER(Described_job, revision), .doc = "Its revision.", .example = R"(3)", .limits = any_number},
    {OHMLORE_MEMBER(Described_job, hash), .doc = "SHA-256 of its file.", .example = R"("sha256:2c26b46b68ffc68ff99b453c1d30413413422d706483bfa0f98a5e886266e7ae")"},
    {OHMLORE_MEMBER(Described_job, parts), .doc = "The part documents of the components that were read.", .example = R"([])", .limits = some},
    {OHMLORE_MEMBER(Described_job, cautions), .doc = "What applies to all work on the appliance, in this order: to be shown.", .example = R"(["Dead test only: never measure resistance on an energised circuit."])", .required = true, .limits = {1, 100}},
    {OHMLORE_MEMBER(Described_job, codes), .doc = "The fault codes, by their ids.", .example = R"(["H1"])", .required = true, .limits = {1, 100}},
    {OHMLORE_MEMBER(Described_job, appliance), .doc = "The appliance.", .example = R"({ "model": "Larch 24 C", "serial": "41-002317" })"},
    {OHMLORE_MEMBER(Described_job, time), .doc = "When the work was done.", .example = R"("2026-11-29 10:30")"},
    {OHMLORE_MEMBER(Described_job, who), .doc = "Who did it: the engineer, never the customer.", .example = R"("engineer 12")"},
    {OHMLORE_MEMBER(Described_job, proved_dead), .doc = "Where and how it was proved dead.", .example = R"([])", .limits = some},
    {OHMLORE_MEMBER(Described_job, stored_charge), .doc = "How stored charge was verified gone.", .example = R"([])", .limits = some},
    {OHMLORE_MEMBER(Described_job, meter), .doc = "The meter.", .example = R"({ "serial": "880412", "calibrated": "2026-03" })"},
    {OHMLORE_MEMBER(Described_job, decision_rule), .doc = "The rule that it was judged by: guarded, guarded_acceptance or simple.", .example = R"("guarded")"},
    {OHMLORE_MEMBER(Described_job, readings), .doc = "What was measured, in that order.", .example = R"([{ "test": "flow_sensor_resistance", "reading": "15.25 kΩ" }])", .required = true, .limits = some},
    {OHMLORE_MEMBER(Described_job, conclusion), .doc = "What the readings said when the record was written.", .example = R"(["nothing abnormal has been read so far"])", .limits = some},
    {OHMLORE_MEMBER(Described_job, action), .doc = "What was done.", .example = R"("sensor replaced")"},
    {OHMLORE_MEMBER(Described_job, replaced), .doc = "Parts that were replaced.", .example = R"([])", .limits = some},
    {OHMLORE_MEMBER(Described_job, note), .doc = "What else to know.", .example = R"("clip was loose")"},
    {OHMLORE_MEMBER(Described_job, return_to_service), .doc = "That no reading makes an appliance safe to put back in service.", .example = R"("not decided here")", .required = true, .constant = not_decided_here},
};
// clang-format on

}

constinit const Record job_program_record = {"job_program", "Job program", "What wrote the record.",
                                             program_fields};
constinit const Record job_appliance_record = {"job_appliance", "Job appliance",
                                               "The appliance that was worked on.", appliance_fields};
constinit const Record job_proof_record = {"job_proof", "Proof of dead", "One place that was proved dead.",
                                           proof_fields};
constinit const Record job_charge_record = {"job_charge", "Job charge",
                                            "Stored charge that was waited for and verified.", charge_fields};
constinit const Record job_meter_record = {"job_meter", "Job meter", "The meter and its leads.",
                                           meter_fields};
constinit const Record job_reading_record = {"job_reading", "Job reading",
                                             "One reading, as it was written down.", reading_fields};
constinit const Record job_source_record = {"job_source", "Job source",
                                            "A part document that readings were judged by.", source_fields};
constinit const Record job_part_record = {"job_part", "Job part", "A part that was replaced.", part_fields};

constinit const Record job_record = {
    "job", "Job record", "The record of a job, from which its readings can be judged again.", job_fields};

}
