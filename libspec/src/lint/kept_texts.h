// Facts that own what they say.
#pragma once

#include "ohmlore/lint.h"

namespace ohmlore {

/// Puts the texts of the facts of one file, which lie anywhere, in one piece that they own.
void keep_texts(std::string_view file, std::string_view document, std::span<Fact> facts);

}
