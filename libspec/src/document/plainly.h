// Texts of a document as JSON writes them at the shortest.
#pragma once

#include <string>

#include "ohmlore/document.h"

namespace ohmlore {

/// A key or a value that holds no other as written, but for escapes: those stand only where JSON asks for
/// them.
std::string written_plainly(const Document& document, Node_id node);

}
