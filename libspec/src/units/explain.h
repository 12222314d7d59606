// A failure in words, with the text as it should stand where that is safe to say.
#pragma once

#include "units/reader.h"

namespace ohmlore::units {

/// `outcome` is a failed `read` of the same text, grammar and dimensions.
Unit_problem explain(std::string_view text, Quantity_grammar grammar, Dimensions allowed,
                     const Outcome& outcome);

/// `text` in quotation marks for a message: cut when long, with bytes that are not printable as \xNN.
std::string in_quotes(std::string_view text);

}
