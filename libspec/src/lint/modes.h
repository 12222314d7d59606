// Which failure modes a kind of component, or a harness, can have.
#pragma once

#include "ohmlore/resolve.h"

namespace ohmlore::rules {

enum class Likelihood : std::uint8_t {
  possible,
  unlikely,  ///< nothing of the kind can fail like this, but something built in with it may
  impossible ///< the part has nothing that could fail like this
};

Likelihood likelihood(Component_kind kind, Mode mode);
/// Possible where its kind is not known.
Likelihood likelihood(const Resolved_component& component, Mode mode);
/// Of wires and the contacts of a plug.
Likelihood likelihood_in_harness(Mode mode);

}
