// Which tests in which order for a fault code, what each outcome rules out, and the record of the job.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "ohmlore/judge.h"
#include "ohmlore/order.h"

namespace ohmlore {

// clang-format off
#define OHMLORE_STANDINGS(word) \
  word(suspected, "Nothing that was read rules it out.") \
  word(ruled_out, "With it a reading would have been another.") \
  word(found, "A reading was not healthy, and this explains it; it alone where it is the only one found.") \
  word(no_sign, "A reading was not healthy, and this does not explain it; nothing excludes it either.") \
  word(not_decidable, "No dead test sees it.")
// clang-format on
OHMLORE_ENUM(Standing, OHMLORE_STANDINGS)

/// One way in which a suspect may have failed; a board, a supply or a cause has one without a mode.
struct Plan_mode {
  std::optional<Mode> mode;
  Standing standing = Standing::suspected;
};

/// One culprit, however many entries of however many codes suspect it.
struct Plan_suspect {
  Suspect_kind kind = Suspect_kind::component;
  std::string id;   ///< of the component or connector; else empty
  std::string name; ///< "Flow sensor", "harness of X4", "control board", or the cause in words
  std::string where, orderable;
  std::vector<std::string> codes; ///< that it can cause, by their ids
  std::vector<Plan_mode> modes;
  double before = 0, now = 0; ///< how likely: by the order in the profile, and after what was read; 0 to 1
  Standing standing = Standing::suspected; ///< of all its modes together
  std::vector<std::string> not_decidable;  ///< why no dead test decides about it, or about some modes of it
  std::vector<std::string> notes;
};

/// What a healthy part reads in a test.
struct Plan_limits {
  std::optional<double> kelvin; ///< at this temperature; empty: at any
  Interval ohm;                 ///< high may be infinite
};

/// What one reading, or several that say the same, would mean.
struct Plan_outcome {
  std::vector<Showing> shown;
  std::string words; ///< "OL or too high"
  double probability = 0;
  std::vector<std::string> rules_out; ///< "Flow sensor: open, short"
  std::vector<std::size_t> clears;    ///< suspects of the plan of which it rules out all that was left
  std::vector<std::string> points_to; ///< likeliest first; of a healthy reading empty
  std::vector<std::string> not_seen;  ///< of a healthy reading: looked at, and may hide all the same
  std::string next;                   ///< the test to go on with; empty: none helps
  std::vector<std::string> then;      ///< what to do where no test helps
  std::vector<Plan_outcome> outcomes; ///< of an abnormal reading: those of `next`; deep inside empty
};

/// What is left to look at: a suspect, with those of its modes that are meant.
struct Plan_left {
  std::size_t suspect = 0; ///< of the plan's
  std::vector<Mode> modes; ///< empty: it has none
  std::string why;         ///< that no dead test decides, or not some of them; may be empty
};

struct Plan_step {
  std::string test, component, name, probes, side;
  std::vector<std::string> prepare; ///< in order: put back, what the test asks before, withdraw, disconnect
  std::vector<std::string> leads;   ///< where each lead goes, with the wire's colours
  std::vector<Plan_limits> limits;
  std::string limit_words; ///< "service limit ± 3 K"
  std::string response;    ///< what else a healthy part does; empty: nothing is asked
  std::string note;
  double minutes = 0;   ///< with what was done before it
  double looked_at = 0; ///< how likely it is that the cause is one which this test can see, 0 to 1
  std::vector<Plan_outcome> outcomes; ///< healthy first, then the likelier first
  std::vector<Plan_left> look_first;  ///< that no test decides, and that is likelier than what this one sees
};

/// A fault code that is planned for.
struct Plan_code {
  std::string id, display, meaning, raised, note;
};

/// What plan() gives. A report takes it as it is: whatever counts suspects counts those of this plan.
struct Plan {
  std::string profile;
  std::int64_t revision = 0;
  std::vector<Plan_code> codes;
  std::vector<Plan_suspect> suspects; ///< likeliest first, as the profile orders them
  std::vector<Plan_step> steps;       ///< as long as everything reads healthy
  std::vector<Plan_step> more;        ///< only where an outcome asks for it
  std::vector<Plan_left> left;        ///< suspects that remain when everything reads healthy, likeliest first
  std::vector<std::string> all_healthy; ///< what to do then
  std::vector<std::string> conclusion;  ///< what the readings so far say; empty without readings
  std::optional<Verdict> readings;      ///< what has been measured, judged
  std::vector<std::string> remarks;     ///< what to know of this plan
  std::vector<std::string> cautions;    ///< always there; show them
  std::vector<std::string> problems;    ///< why there is no plan, or why a reading was left out
};

struct Plan_request {
  std::vector<std::string> codes; ///< ids of faults, or codes as displayed: "H1", "A4 1", "amber 3 flashes"
  std::optional<std::string> model, software;  ///< of the appliance
  std::vector<Judge_request> readings;         ///< what has been measured, in that order
  std::optional<Part_temperature> temperature; ///< for the expected readings; empty: at several
};

/// Plans for one profile, which must have been read without errors; of another document a problem is told.
/// Errors that lint finds are not looked for: see caution_of_errors. Deterministic.
Plan plan(const Resolved& resolved, const Plan_request& request, const Judge_means& means = {});

/// What reading a profile and planning by it gave.
struct Plan_run {
  std::optional<Plan> plan;
  std::vector<Finding> findings;     ///< errors of the profile; the cautions of the plan say so
  std::vector<std::string> warnings; ///< why a file among the parts is not read
  std::vector<std::string> troubles; ///< why there is no plan, or a part of it is missing
};
/// The same for a file, as judge_file has it.
Plan_run plan_file(const std::string& profile, const Plan_request& request, const Judge_means& means = {},
                   const std::optional<std::string>& root = {});

/// For people, without `problems`, and as one JSON object (spec/v1/plan.schema.json). Both begin with the
/// cautions.
std::string text_report(const Plan& plan);
std::string json_report(const Plan& plan);

/// The problem that is put in order: hypotheses are the failure modes of the suspects of some faults, tests
/// those that the faults name, in the order in which they name them.
struct Plan_problem {
  Order_problem order;
  std::vector<std::string> tests;
  std::vector<std::string> culprits; ///< names
};
Plan_problem plan_problem(const Resolved& resolved, std::span<const std::string> faults);

}
