// Documents with texts that are hard to carry, and trees compared.
#pragma once

#include <string>

#include "ohmlore/document.h"

namespace ohmlore::test {

/// The document with some of its free texts replaced by hostile ones (markup, quotation marks, formulas,
/// emoji, writing from right to left), and members of others added that hold any JSON. It has no errors where
/// the document has none. The same seed gives the same bytes.
std::string with_hostile_texts(const Document& document, unsigned seed);

/// Empty where two documents say the same: members of records in any order, everything else in the order in
/// which it stands, texts and numbers as written. Else the JSON Pointer of a difference and what it is.
std::string tree_difference(const Document& one, const Document& other);

}
