// One reading of a test, and what it is judged by.
#pragma once

#include <vector>

#include "judge/measuring.h"

namespace ohmlore {

struct Case {
  const Resolved& resolved;
  const Test& test;
  Text id; ///< of the test
  const Judge_request& request;
  const Means& means;
  Expected expected;
  Reading reading; ///< of the request's readings the one that the limits hold for
  Known known;     ///< of that reading

  bool beside_twin() const { return expected.basis == Limit_basis::twin; }
  /// Beside a twin without a curve: the limits hang on the ohm that it reads.
  bool by_ohm() const { return beside_twin() && !expected.model; }
};

/// Empty where the test gives no limits for the reading: `problem` says why.
std::optional<Case> case_of(const Resolved& resolved, const Test& test, Text id, const Judge_request& request,
                            const Means& means, std::string& problem);

/// Both ask the case, which must outlive them.
Limits_at limits_of(const Case& one);
Middle_at middle_of(const Case& one);

/// Limits of a wound part that are not carried from where they hold, as nothing says what it is wound of.
struct Flat_limits {
  Interval held;   ///< in kelvin
  Interval change; ///< from there to the part's temperature, where it is copper: at least and at most
};
/// Empty where they hold at its temperature, or that is not known.
std::optional<Flat_limits> flat_limits(const Case& one);

/// All that a request gives.
std::vector<const Reading*> readings_of(const Judge_request& request);

/// "X4.1 to X4.2"
std::string contacts_of(const Test& test);

}
