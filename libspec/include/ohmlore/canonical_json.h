// The one canonical text of a document.
#pragma once

#include <string>

#include "ohmlore/document.h"

namespace ohmlore {

/// The document in the canonical form of format.md: order of keys, spelling of quantities, texts and numbers,
/// layout. It reads as the same records, to the last bit of each value. Unknown members are kept. What the
/// reader refused is written as it stands. Ends in a line feed; empty where the document is not whole.
std::string canonical_json(const Document& document, Prefixes prefixes = Prefixes::as_written);

}
