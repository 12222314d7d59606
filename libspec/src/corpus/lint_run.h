// A run of the linter, with what the baseline must know of it.
#pragma once

#include "ohmlore/baseline.h"
#include "ohmlore/corpus.h"

namespace ohmlore {

/// The baseline of a request, where it names one; what is wrong with it is added to `troubles`.
std::optional<Baseline> open_baseline(const std::string& path, std::vector<std::string>& troubles);

/// lint_paths. Where `looked_at` is asked for, the baseline is about to be written, and is not applied.
Lint_run lint_request(const Lint_request& request, Looked_at* looked_at = nullptr);

}
