// The record of a job: what was measured on which appliance with what, so that it can be judged again later.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/plan.h"

namespace ohmlore {

/// Before a connector was touched: proved dead there, as it was seen.
struct Job_proof {
  std::string where, detector, seen;
  std::optional<bool> checked_before, checked_after; ///< the detector, on a known source
};
/// Stored charge: how long was waited, and what was seen then.
struct Job_charge {
  std::string where, waited, seen;
};

/// One reading as it was written down. What is judged is written as for ohmlore judge, and kept as it is.
struct Job_reading {
  std::string test, reading;             ///< "15.25 kΩ", "OL", "OL 6 MΩ"
  std::string time, side, probes, range; ///< range: that of the meter
  std::string temperature, taken;        ///< "15 °C ± 1 K"; a word of Temperature_place
  std::optional<std::int64_t> minutes_since_running;
  std::string reverse, twin, at_part, after, after_temperature;
  std::optional<bool> answered; ///< the response that the test asks for, as seen by eye
  std::string note;
  // What the program said of it, when it wrote the record.
  std::optional<Conformity> result;
  std::string limits;
};

/// A part document that the readings were judged by.
struct Job_source {
  std::string id, hash;
  std::int64_t revision = 0;
};

struct Job_part {
  std::string component, orderable, serial;
};

/// No personal data of a customer: the appliance is known by its serial number.
struct Job {
  std::string profile, hash; ///< hash: "sha256:…" of the profile's file
  std::int64_t revision = 0;
  std::vector<Job_source> parts; ///< those of the components that were read
  std::string written_by;        ///< the program's version
  std::vector<std::string> codes;
  std::string maker, model, serial, board, software; ///< of the appliance
  std::string time, who;
  std::vector<Job_proof> proved_dead;
  std::vector<Job_charge> stored_charge;
  std::string meter, meter_serial, calibrated, accuracy; ///< accuracy: "0.8 % + 3"
  std::string leads;                                     ///< "0.2 Ω ± 0.05 Ω"; "0" where they were nulled
  std::string decision_rule;
  std::vector<Job_reading> readings;
  std::vector<std::string> conclusion;
  std::string action, note;
  std::vector<Job_part> replaced;
  std::vector<std::string> cautions;
};

/// A record, or a list of readings: one a line, TEST READING [at TEMPERATURE], and behind commas "on part
/// READING", "after READING", "reversed READING", "twin READING", "answers" or "does not answer"; # begins a
/// remark.
struct Job_read {
  std::optional<Job> job;
  std::vector<Finding> findings;     ///< of a record that is not one
  std::vector<std::string> problems; ///< of a list, with its lines
};
Job_read read_job(std::string name, std::string_view bytes);

/// The readings to judge or to plan with; what cannot be read is a problem.
std::vector<Judge_request> readings_of(const Job& job, std::vector<std::string>& problems);
/// The meter, leads and rule with which they were taken; what is stated in `means` already stays.
void add_means(const Job& job, Judge_means& means, std::vector<std::string>& problems);

// What follows is of profiles alone: of another document nothing is said, and the record stays as it was.

/// That a record is one of another profile; empty where it is not.
std::string of_another_profile(const Job& before, const Resolved& resolved);
/// What of the profile and its parts is not what the record was written by: its readings are judged anew.
std::vector<std::string> changes_since(const Job& before, const Resolved& resolved);

/// Judges readings of a record: `judge_file` with a caution for each change since it was written.
Judge_run judge_job(const std::string& profile, std::span<const Judge_request> requests, const Job& before,
                    const Judge_means& means, const std::optional<std::string>& root = {});

/// The record after a plan: that before it, with readings judged, and what the profile knows.
Job record_of(const Resolved& resolved, const Plan& plan, Job before);

/// A plan that goes on from a record: codes where the request names none, readings, meter, leads and rule are
/// the record's; what is stated stays. And the record after it.
struct Job_run {
  Plan_run run;
  Job record;
};
Job_run plan_job(const std::string& profile, Plan_request request, Job before, Judge_means means = {},
                 const std::optional<std::string>& root = {});

/// One JSON object (spec/v1/job.schema.json), and Markdown with blanks for what is not filled in. Both begin
/// with the cautions, and end with what is not decided here.
std::string json_report(const Job& job);
std::string markdown_report(const Job& job);

}
