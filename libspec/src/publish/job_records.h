// The record of a job, described like the records of the format, so that the one reader reads it back.
#pragma once

#include "model/types.h"
#include "ohmlore/judge.h"

namespace ohmlore {

inline constexpr std::string_view job_format = "ohmlore-job/1.0";
inline constexpr std::string_view not_decided_here = "not decided here";

struct Described_job_program : Record_base {
  Value<Text> name, version;
};
struct Described_job_appliance : Record_base {
  Value<Text> maker, model, serial, board, software;
};
struct Described_job_proof : Record_base {
  Value<Text> where, detector, seen;
  Value<bool> checked_before, checked_after;
};
struct Described_job_charge : Record_base {
  Value<Text> where, waited, seen;
};
struct Described_job_meter : Record_base {
  Value<Text> name, serial, calibrated, accuracy, leads;
};
struct Described_job_reading : Record_base {
  Value<Text> test, reading, time, side, probes, range, temperature;
  Value<Temperature_place> taken;
  Value<std::int64_t> minutes_since_running;
  Value<Text> reverse, twin, at_part, after, after_temperature;
  Value<bool> answered;
  Value<Text> note;
  Value<Conformity> result;
  Value<Text> limits;
};
struct Described_job_source : Record_base {
  Value<Text> id;
  Value<std::int64_t> revision;
  Value<Text> hash;
};
struct Described_job_part : Record_base {
  Value<Text> component, orderable, serial;
};
struct Described_job : Record_base {
  Value<Text> format;
  Described_job_program program;
  Value<Text> profile;
  Value<std::int64_t> revision;
  Value<Text> hash;
  List<Described_job_source> parts;
  List<Value<Text>> cautions;
  List<Value<Text>> codes;
  Described_job_appliance appliance;
  Value<Text> time, who;
  List<Described_job_proof> proved_dead;
  List<Described_job_charge> stored_charge;
  Described_job_meter meter;
  Value<Text> decision_rule;
  List<Described_job_reading> readings;
  List<Value<Text>> conclusion;
  Value<Text> action;
  List<Described_job_part> replaced;
  Value<Text> note;
  Value<Text> return_to_service;
};

}
