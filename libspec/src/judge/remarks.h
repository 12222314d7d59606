// What limits the answer on a reading, and what it does not say.
#pragma once

#include "judge/case.h"

namespace ohmlore {

/// To a judgement that is complete otherwise.
void add_remarks(Judgement& judgement, const Case& one);

}
