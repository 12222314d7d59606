// Whether a record says all that it was meant to say.
#pragma once

#include "ohmlore/document.h"

namespace ohmlore::rules {

/// False where a number of the record is written but could not be read, so that what is absent need not have
/// been left out: such a record proves nothing.
bool fully_read(const Document& document, const Table_row& row);
bool fully_read(const Document& document, const Expectation& expectation);
bool fully_read(const Document& document, const Resistance_model& model);
/// The same of the circumstances that a test states, so that it can be compared with others.
bool fully_read(const Document& document, const Test& test);

}
