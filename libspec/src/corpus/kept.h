// What linting a document gave, as a line of text and back: for shards and for the cache. Both are read by
// the program that wrote them alone (see fingerprint.h); their form is nobody's interface.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "ohmlore/lint.h"

namespace ohmlore {

/// One line of JSON, without its end. Texts keep their bytes, also where these are not UTF-8.
std::string kept_text(const Linted& linted);

/// Empty where the text is not what kept_text writes. Never throws on bad input.
std::optional<Linted> linted_of(std::string_view text);

}
