// Which failure modes a kind of component can have.
#pragma once

#include "ohmlore/words.h"

namespace ohmlore::rules {

enum class Likelihood : std::uint8_t {
  possible,
  unlikely,  ///< nothing of the kind can fail like this, but something built in with it may
  impossible ///< the part has nothing that could fail like this
};

Likelihood likelihood(Component_kind kind, Mode mode);

}
