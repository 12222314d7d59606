// What this program is made of.
#pragma once

#include <string_view>

namespace ohmlore {

/// SHA-256 over all sources of the library: what another program has kept may have been found by other rules.
std::string_view fingerprint();

}
