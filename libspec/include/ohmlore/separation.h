// Can it be told apart: for a fault, what each test that it names shows in each failure mode of each suspect.
#pragma once

#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "ohmlore/physics.h"
#include "ohmlore/resolve.h"

namespace ohmlore {

/// What the meter shows while one suspect has one failure mode and all else is healthy.
enum class Shows : std::uint8_t {
  healthy,   ///< what it shows without the mode: the mode changes nothing between the two contacts
  open,      ///< no path: above the highest range of the meter, or as little as is left of a closed one
  near_zero, ///< nearly no resistance, or less than the least that the test states
  higher,    ///< more than healthy, by how much is not known
  lower,     ///< less than healthy, by how much is not known
  unsteady,  ///< comes and goes
  anything   ///< not known
};

/// What the test says of it.
enum class Outcome : std::uint8_t {
  passes, ///< the reading is one that the test calls healthy: it does not see the mode
  fails,  ///< the reading is not healthy, however far the mode has gone: it sees the mode
  either  ///< one or the other: a fault of one path of several, of unknown size, or that comes and goes
};

/// One test in one failure mode.
struct Cell {
  Shows shows = Shows::healthy;
  /// The resistances in ohm that it may show, leads subtracted; 0 to infinity where that is not known. Where
  /// leads are exchanged or two parts compared, of the first reading.
  Interval ohm;
  Outcome outcome = Outcome::passes;
  /// Alike to whoever reads them: the same is shown and said.
  friend bool operator==(const Cell& a, const Cell& b) {
    return a.shows == b.shows && a.outcome == b.outcome;
  }
};

/// A column: one test, and what it calls healthy.
struct Named_test {
  Text id;
  const Test* test = nullptr; ///< never null
  /// In ohm: the expectation's, else what the component's model gives at 20 °C (or at the first temperature
  /// that it names). Empty where neither says.
  std::optional<Interval> healthy;
};

/// A row: one failure mode of one suspect, with a cell for each test. Board, supply and cause have no mode,
/// and every dead test passes. A harness without modes has one row without, of which nothing is known.
struct Suspected_mode {
  const Suspect* suspect = nullptr; ///< never null
  std::optional<Mode> mode;
  std::span<const Cell> cells; ///< of the matrix
};

/// The matrix of a fault. Views into the document: keep it alive.
struct Separation {
  std::span<const Named_test> tests; ///< each that any suspect names in `decided_by`, once, in order
  std::span<const Suspected_mode> rows;
  std::shared_ptr<const Arena> memory; ///< of both, and of the cells: one for all faults of a profile
};

/// What the tests of a fault tell apart. How a mode shows is the trade's common practice, no source: an open
/// part reads above the range, a short nearly nothing, and whatever a test that states a least reading calls
/// too little; drift leaves the band, a wire shows at the withdrawn plug and not on the part, one element of
/// a chain opens or shorts all of it or not. What a chain reads while one of its elements is open or shorted
/// is computed where the resistance of all others is known. The meter is the one of the corpus.
Separation separation(const Resolved& resolved, const Fault& fault);
/// What the tests of several faults show of all their suspects, in one matrix. In which wires of a harness
/// something lies goes by the tests of the fault that suspects it.
Separation separation(const Resolved& resolved, std::span<const Fault> faults);
/// Of all faults of a profile, in its order: for less than each by itself. Of another document none.
std::vector<Separation> separations(const Resolved& resolved);

}
