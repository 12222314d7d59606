// How a plan speaks of suspects, readings and shares.
#pragma once

#include <string>
#include <vector>

#include "plan/situation.h"

namespace ohmlore {

/// "OL or too high"; of a test that watches a reading rise, "OL at once".
std::string shown_words(const std::vector<Showing>& shown, const Test& test);

/// "15.1 kΩ to 16.9 kΩ at 15 °C (service limit ± 3 K)"; empty where the step has no limits.
std::string limits_words(const Plan_step& step);

/// "Flow sensor", "harness of X4", "control board"
std::string name_of(const Resolved& resolved, const Culprit& culprit);

/// Of a suspect that no dead test decides: "seized: no resistance reading shows a stuck rotor".
std::string why_of_modes(const Suspect& suspect);

/// The culprits of those failures that `is` picks, with their modes: "Flow sensor: open, short". In the order
/// of `weights`, the largest first.
std::vector<std::string> listed_failures(const Resolved& resolved, const Situation& situation,
                                         const std::vector<bool>& is, const std::vector<double>& weights);

}
