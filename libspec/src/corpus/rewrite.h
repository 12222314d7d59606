// Documents rewritten one by one: printed, compared, or put in the place of their files.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "ohmlore/corpus.h"

namespace ohmlore {

/// The new text of a document. Empty: it is left alone, and why stands in the run.
using Rewriting =
    std::function<std::optional<std::string>(const std::string& name, const std::string& bytes)>;

void rewrite_paths(const Rewrite_request& request, Rewrite_run& run, const Rewriting& rewritten);

}
