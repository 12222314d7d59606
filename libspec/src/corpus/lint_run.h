// A run of the linter, with what the baseline must know of it.
#pragma once

#include <functional>

#include "ohmlore/baseline.h"
#include "ohmlore/corpus.h"

namespace ohmlore {

/// The baseline of a request, where it names one; what is wrong with it is added to `troubles`.
std::optional<Baseline> open_baseline(const std::string& path, std::vector<std::string>& troubles);

/// Writes the baseline of a run that has not been held against it yet; false where it cannot.
using Renew = std::function<bool(const Lint_run&, const Looked_at&)>;

/// lint_paths, with the baseline that `renew` writes where it is given.
Lint_run lint_request(const Lint_request& request, const Renew& renew = {});

}
