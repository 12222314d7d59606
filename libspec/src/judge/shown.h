// Numbers of a verdict as they are shown.
#pragma once

#include <string>

#include "judge/probable.h"

namespace ohmlore {

/// At most 4 significant digits: "0.6 Ω", "15.25 kΩ". Not "600 mΩ", which is soon read as 600 MΩ.
std::string shown_ohm(double ohm);
/// Of what is rounded already.
std::string shown_rounded(double ohm);
/// "at least 1 MΩ", "at most 1 Ω", "13.6 kΩ to 15.9 kΩ"; rounded outward
std::string shown_ohm(Interval limits);
/// "0.23", "above 0.99", "below 0.01"
std::string shown_probability(double probability);
/// Of both ends.
std::string shown_probability(const Probable& probable);
/// Where a limit is from, with the words that state it: "service limit ± 3 K".
std::string basis_words(Limit_basis basis, const std::string& words);

}
