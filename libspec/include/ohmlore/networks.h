// Resistances between terminals: what a network of resistors reads, and what none can read.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "ohmlore/physics.h"

namespace ohmlore {

/// A resistor between two nodes, or what is read between two terminals. Nodes and terminals are numbered from
/// 0, and none beyond those that there are is asked for. In ohm, not negative; `ohm.high` may be infinite.
struct Between {
  std::size_t a = 0, b = 0;
  Interval ohm;
};

/// A way from one end of a reading to its other end over other readings.
struct Way_round {
  std::vector<std::size_t> legs; ///< positions of the readings, in order from the direct reading's `a`
  Interval ohm;                  ///< what they add up to
};

/// The way round `readings[direct]` that adds up to the least, judged by the greatest values; empty where
/// there is none. A way over one leg is another reading of the same two terminals: only where asked for. No
/// way leads over a reading below 0 Ω, which no part has. Effective resistance is a metric (D. J. Klein, M.
/// Randić, J. Math. Chem. 12, 1993, 81-95): where `readings[direct].ohm.low` exceeds `ohm.high` of a way, no
/// network has these readings.
std::optional<Way_round> shortest_way_round(std::span<const Between> readings, std::size_t direct,
                                            bool also_one_leg);

/// What a network of resistors between `nodes` nodes reads between nodes `a` and `b`. As the reading rises
/// with each resistor (Rayleigh's monotonicity law), its ends are those of all resistors at their ends: as
/// narrow as the inputs allow. Infinite where nothing joins the two.
Interval network_resistance(std::span<const Between> resistors, std::size_t nodes, std::size_t a,
                            std::size_t b);

/// Between four terminals: the most that can be read between the first two, given the five other readings.
/// The terminals of any network read as if one resistor lay between each two (Kron reduction). Writing the
/// resistor between the first two by the six readings, it is not negative if and only if
///
///     r12 <= r14 + r24 - (r14 + r34 - r13) (r24 + r34 - r23) / (2 r34)
///
/// and where the triangle inequality holds, the right side rises with r13, r14, r23 and r24 and falls with
/// r34. `r34.low` must be positive.
double most_between_four(Interval r13, Interval r14, Interval r23, Interval r24, Interval r34);

/// Why no network has a complete set of readings.
struct Unrealizable {
  std::vector<std::size_t> terminals; ///< those that show it
  /// The pair between which a negative conductance would have to lie.
  std::size_t a = 0, b = 0;
  /// The most, in ohm, that the other readings of four terminals allow between the pair; empty where it takes
  /// more than one inequality to show it.
  std::optional<double> most;
};

/// Looks for a proof that no network of resistors, hidden nodes included, has these readings: one for each
/// two of `terminals` (3 to 8; else there is no answer), all finite and with a positive low end. Readings R
/// belong to a network if and only if the pseudo-inverse of -J R J / 2, with J = 1 - (all ones)/n, is a
/// Laplacian: off its diagonal nothing is positive (M. Fiedler, Matrices and Graphs in Geometry, Cambridge
/// 2011: the hyperacute simplices; K. Devriendt, Linear Algebra Appl. 639, 2022, 24-49). The proof holds for
/// every choice within the intervals: they are split until each piece is excluded by a triangle, by
/// `most_between_four`, or by an enclosure of the Laplacian. Empty where a network was found, or where the
/// bounded work proves nothing.
std::optional<Unrealizable> find_unrealizable(std::span<const Between> readings, std::size_t terminals);

}
