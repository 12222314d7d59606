// From judged readings to what they say of each failure.
#pragma once

#include <cmath>

#include "plan/situation.h"

namespace ohmlore {

/// What one reading may have shown: several where it is too close to call.
struct Evidence {
  std::size_t test = 0;
  std::vector<Showing> at_plug;
  std::vector<Showing> at_part;    ///< of the same two ends on the part; empty: not read
  std::vector<std::string> settle; ///< what would say more of it
  bool changed = false;            ///< between two measurements
  bool no_nearer = false;          ///< undecided, as it was before it was measured again
  bool hidden = false; ///< healthy at the plug and not on the part: what lies beside the part hides its fault
  /// In ohm, of a reading at the plug that is not within: what it may have been, what is healthy, and what
  /// damp beside a break conducts at least. Everything where that is not known.
  Interval read = {0, INFINITY}, healthy = {0, INFINITY};
  Interval changes = {1, 1}; ///< see changes_in_circuit
  double damp_from = 0;
  bool is_read() const { return std::isfinite(read.high); }
  bool abnormal() const;
  bool undecided() const;      ///< it may be healthy, or not
  bool in_the_harness() const; ///< healthy on the part itself, and not at the plug
};

/// What a judgement says. `on_part`: the judgement of the reading on the part, null where there is none.
/// `range_end` is where the highest range of the meter ends, in ohm.
Evidence evidence_of(const Resolved& resolved, const Situation& situation, std::size_t test,
                     const Judge_request& reading, const Judgement& judgement, const Judgement* on_part,
                     const Verdict& verdict);

/// Of a test that was measured again: nothing that an abnormal reading showed is taken back.
Evidence repeated(const Evidence& before, Evidence again);

/// Whether a failure explains one of the abnormal readings.
bool explains(const Situation& situation, std::span<const Evidence> all, std::size_t hypothesis);

/// Whether more than one part lies between the two ends, so that no reading there is of one part alone.
bool several_parts(const Resolved& resolved, const Situation& situation, std::size_t test);

/// Whether the profile says that the test excludes the failure.
bool is_said_to_exclude(const Situation& situation, std::size_t test, std::size_t hypothesis);

/// Whether a reading was another than it would have been with this failure, in a test that is said to exclude
/// it.
bool is_excluded(const Situation& situation, std::span<const Evidence> all, std::size_t hypothesis);

/// The state after all of it. Where no single failure explains everything, `contradiction` is set, and what
/// explains most of it keeps most weight.
Order_state state_after(const Situation& situation, std::span<const Evidence> all, bool& contradiction);

}
