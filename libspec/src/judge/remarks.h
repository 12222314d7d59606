// What limits the answer on a reading, and what it does not say.
#pragma once

#include "judge/case.h"

namespace ohmlore {

/// To a judgement that is complete otherwise.
void add_remarks(Judgement& judgement, const Case& one);

/// Where the digits are those of a healthy part, and the prefix is not: Ω, kΩ and MΩ stand small on a
/// display. Empty elsewhere, where digits are too few to be those (0.3 Ω is a short, and no 300 Ω), and where
/// any more or any less is healthy, as it would excuse a leak or a bad contact.
std::string mind_the_prefix(const Reading& reading, const Judged& by);

}
