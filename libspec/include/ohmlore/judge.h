// Is a reading good, bad, or too close to call? The verdict on a measurement of a dead appliance.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "ohmlore/measurement.h"
#include "ohmlore/resolve.h"

namespace ohmlore {

// clang-format off
#define OHMLORE_MODE_VERDICTS(word) \
  word(excluded, "A part with this failure would have read otherwise.") \
  word(fits, "What the reading looks like.") \
  word(undecided, "Too close to call.") \
  word(not_seen, "This test cannot see it, or is not said to.")

#define OHMLORE_CONTRIBUTORS(word) \
  word(meter, "The meter's accuracy: a share of the reading, and counts.") \
  word(rounding, "The reading was written with fewer digits than the meter shows.") \
  word(leads, "The resistance of the leads that was subtracted.") \
  word(thermometer, "The thermometer's accuracy.") \
  word(place, "Where the temperature was taken instead of in the part.") \
  word(running, "What is left of the heat of running.") \
  word(self_heating, "The part warmed by the current of the meter.") \
  word(twin, "The reading of the twin, by which this one is judged.")

#define OHMLORE_TEMPERATURE_PLACES(word) \
  word(unstated, "Not said: taken for the temperature of the part itself.") \
  word(immersed, "In the same water or air stream, beside the element: ± 0.5 K.") \
  word(on_part, "Held to the part: ± 1 K.") \
  word(on_pipe, "Clipped on a pipe beside it: ± 3 K.") \
  word(room, "The air of the room: ± 2 K.")

#define OHMLORE_LIMIT_BASES(word) \
  word(service_limit, "The service limit that the component states.") \
  word(policy, "The service limit of the corpus's policy for sensors that state none.") \
  word(practice, "3 K for sensors that state none (common practice, no source).") \
  word(manufacturing, "The manufacturing tolerance: no service limit is stated.") \
  word(expectation, "What the test itself expects.") \
  word(state, "A contact's threshold: the component's, else closed at most 1 Ω, open at least 1 MΩ (common practice).") \
  word(twin, "The largest difference from the twin that the test allows.")
// clang-format on
OHMLORE_ENUM(Mode_verdict, OHMLORE_MODE_VERDICTS)
OHMLORE_ENUM(Contributor, OHMLORE_CONTRIBUTORS)
OHMLORE_ENUM(Temperature_place, OHMLORE_TEMPERATURE_PLACES)
OHMLORE_ENUM(Limit_basis, OHMLORE_LIMIT_BASES)

/// What the meter showed.
struct Reading {
  double ohm = 0;          ///< as shown, leads included; of an OL where its range ends, 0 where not known
  double half_digit = 0;   ///< half of the last digit as it was written, in ohm
  bool over_range = false; ///< OL: more than this range's maximum
};
/// Reads "15.25 kΩ", "15.25k", "15k25", "42.1 Ω"; "OL", with the end of its range "OL 6 MΩ". A number without
/// a unit is none: 42.1 may be Ω or kΩ.
std::optional<Reading> parse_reading(std::string_view text, std::string& problem);

/// "14C" is 14 °C here, where nothing can be a coulomb or a farad; everything else stays as it is.
std::string completed_temperature(std::string_view text);

/// The temperature that the part is taken to have.
struct Part_temperature {
  double kelvin = zero_celsius + 20; ///< -60 °C to 400 °C: nothing is judged at another
  double half_width = 1;             ///< of the thermometer, in kelvin: rectangular
  Temperature_place place = Temperature_place::unstated;
  std::optional<double> minutes_since_running; ///< not negative; empty: it has not run today
};
/// Reads "14 °C ± 1 K", "14C+-0.5", "57 °F"; without a ±, ± 1 K (common practice, no source).
std::optional<Part_temperature> parse_part_temperature(std::string_view text, std::string& problem);
/// How far it may be off, one entry a cause: the thermometer; where it was taken (see Temperature_place);
/// 20 K of running, 80 K where the part warms itself as a winding does, that fade as e^(-t / 30 min). Widths
/// of place and running are common practice, no source.
struct Temperature_deviation {
  Contributor from = Contributor::thermometer;
  double half_width = 0; ///< kelvin, rectangular
};
std::vector<Temperature_deviation> temperature_deviations(const Part_temperature& temperature,
                                                          bool warms_itself = false);

/// The resistance of the leads, which is subtracted. Unstated: 0.3 Ω ± 0.2 Ω, for 0.1 to 0.5 Ω of leads.
struct Leads {
  double ohm = 0.3;
  double half_width = 0.2;
};
/// Reads "0.2 Ω ± 0.05 Ω", "200 mΩ"; without a ±, ± 0.1 Ω of contact (common practice, no source). "0" where
/// they were nulled; any other number needs its unit, as a reading does. More than 2 Ω are none.
std::optional<Leads> parse_leads(std::string_view text, std::string& problem);

/// How the measurements are taken and decided on; what is absent comes from the corpus, or is as said above.
/// By numbers that none of the parsers would give (negative, not finite) nothing is judged: a problem says
/// so.
struct Judge_means {
  std::optional<Meter_accuracy> meter;
  std::optional<Leads> leads;
  Decision_rule rule = guarded;
  /// Where the part's temperature is not known: between these, in kelvin (common practice, no source).
  Interval room = {zero_celsius + 5, zero_celsius + 30};
};

/// Reads "5 °C to 30 °C", "5C to 30C": from the lower to the higher, in kelvin.
std::optional<Interval> parse_room(std::string_view text, std::string& problem);

struct Judge_request {
  std::string test;
  Reading reading;
  std::optional<Part_temperature> temperature;
  std::optional<Reading> reverse; ///< the leads exchanged, for a test of both directions
  std::optional<Reading> twin;    ///< of the part that a `pair` names, at the same temperature
  std::optional<Reading> at_part; ///< the same two ends on the part itself; `reading` is then at the plug
  std::optional<Reading> after;   ///< after the response that the test asks for: warmed, say
  std::optional<Part_temperature> after_temperature;
  std::optional<bool> answered; ///< of a test with a response: whether it answered, as seen by eye
};

/// One line of the uncertainty budget.
struct Contribution {
  Contributor from = Contributor::meter;
  double half_width = 0;  ///< in its own unit, rectangular
  bool in_kelvin = false; ///< its unit: kelvin, else ohm
  double sensitivity = 1; ///< ohm per unit
  double ohm = 0;         ///< standard uncertainty, in ohm
  double share = 0;       ///< of the variance, 0 to 1
};

/// A reading beside one pair of limits.
struct Judged {
  Conformity result = Conformity::too_close;
  Limit_basis basis = Limit_basis::expectation;
  std::string words; ///< the limit as it is stated: "3 K", "1 %", "at least 1 MΩ"
  Interval ohm; ///< at the temperature; over a room range the least and the greatest; high may be infinite
  /// Each probability at least and at most, over the room range; alike where the temperature is known.
  Conformity_probability least, most;
  /// Of what is too close: the probability that a reading in the very middle would have, which is the best
  /// that these means can do.
  std::optional<double> best;
};

struct Mode_answer {
  Mode mode = Mode::open;
  Mode_verdict verdict = Mode_verdict::not_seen;
  std::string why;
};

/// A part on this connector that the reading fits, and this one does not.
struct Other_fit {
  std::string component, test; ///< the test may be empty: two contacts that no test names
  std::string probes;          ///< "X4.1 to X4.2"
  double probability = 0;
};

/// Plug and part beside each other.
struct Harness_verdict {
  double ohm = 0;                            ///< plug less part
  double uncertainty = 0;                    ///< standard, in ohm
  std::optional<Mode> mode;                  ///< of the harness; empty where it shows none
  Conformity result = Conformity::too_close; ///< of the harness
  std::string words;
};

/// What came of the response that the test asks for.
struct Response_verdict {
  Conformity result = Conformity::too_close;
  double change = 0;                    ///< ohm, after less before
  std::optional<double> warmed_by;      ///< kelvin that the change means
  std::optional<Interval> expected_ohm; ///< at the stated temperature afterwards
  std::string words;
};

struct Judgement {
  std::string test, component, name, probes, side;
  Reading reading;
  double ohm = 0; ///< leads subtracted
  std::optional<Part_temperature> temperature;
  bool by_temperature = false; ///< the limits hang on the temperature; without one, on the room's range
  Conformity result = Conformity::too_close; ///< by all that was given
  Judged service;
  std::optional<Judged> manufacturing;
  std::optional<double> nominal;    ///< ohm, at that temperature
  std::vector<Contribution> budget; ///< largest share first
  double uncertainty = 0;           ///< combined standard uncertainty in ohm
  std::vector<Mode_answer> modes;
  std::vector<Other_fit> others;
  std::optional<double> means;           ///< kelvin that the nominal curve gives to this reading
  std::optional<Interval> means_between; ///< with meter and manufacturing tolerance
  std::optional<double> deviation;       ///< kelvin: `means` less the thermometer's
  std::optional<Judged> reverse;
  std::optional<Harness_verdict> harness;
  std::optional<Response_verdict> response;
  std::vector<std::string> remarks; ///< what limits the answer, and what it does not say
  std::vector<std::string> settle;  ///< what would settle a `too_close`
};

/// What several readings of one component say together.
struct Set_check {
  Conformity result = Conformity::too_close;
  std::string words;
};

struct Verdict {
  std::string profile;
  std::int64_t revision = 0;
  Meter_accuracy meter;
  Leads leads;
  bool leads_stated = false; ///< else they are assumed
  Decision_rule rule;
  Interval room;
  std::vector<Judgement> judgements;
  std::vector<Set_check> sets;
  std::vector<std::string> cautions; ///< always there; show them
  std::vector<std::string> problems; ///< why a reading could not be judged; it has no judgement then
  /// The worst: outside before too_close before within; too_close where there is no judgement.
  Conformity result() const;
};

/// Judges readings of tests of one profile. `within` excludes only the failures that `modes` says are
/// excluded; it never means that a part is good. The document must be a profile read without errors; of any
/// other a problem is told. Errors that lint finds are not looked for: see caution_of_errors.
Verdict judge(const Resolved& resolved, std::span<const Judge_request> requests,
              const Judge_means& means = {});

/// What reading a profile and judging by it gave.
struct Judge_run {
  std::optional<Verdict> verdict;
  std::vector<Finding> findings;     ///< errors of the profile; the cautions of the verdict say so
  std::vector<std::string> warnings; ///< why a file among the parts is not read
  std::vector<std::string> troubles; ///< why there is no verdict, or a part of it is missing
};
/// The same for a file; parts and policy are those of its corpus: the nearest corpus.json at or above it, or
/// in `root`.
Judge_run judge_file(const std::string& profile, std::span<const Judge_request> requests,
                     const Judge_means& means = {}, const std::optional<std::string>& root = {});

/// For people, without `problems`, and as one JSON object (spec/v1/judgement.schema.json). Both begin with
/// the cautions.
std::string text_report(const Verdict& verdict);
std::string json_report(const Verdict& verdict);

}
