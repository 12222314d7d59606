// What would settle a reading that is too close to call.
#pragma once

#include "judge/case.h"

namespace ohmlore {

void say_what_settles(Judgement& judgement, const Case& one);

}
