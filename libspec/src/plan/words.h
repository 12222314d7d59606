// How a plan speaks of suspects, readings and shares.
#pragma once

#include <string>
#include <vector>

#include "plan/situation.h"
#include "report/lines.h"

namespace ohmlore {

/// "OL", "about 0 Ω", "healthy"
std::string_view shown_words(Showing shown);
/// Of several: "OL or too high"
std::string shown_words(const std::vector<Showing>& shown);

/// "Flow sensor", "harness of X4", "control board"
std::string name_of(const Resolved& resolved, const Culprit& culprit);

/// The culprits of those failures that `is` picks, with their modes: "Flow sensor: open, short". In the order
/// of `weights`, the largest first.
std::vector<std::string> listed_failures(const Resolved& resolved, const Situation& situation,
                                         const std::vector<bool>& is, const std::vector<double>& weights);

}
