// How many findings of a run, in the texts for people.
#pragma once

#include <algorithm>

#include "ohmlore/fix.h"
#include "ohmlore/report.h"

namespace ohmlore {

inline std::size_t count_of(const Lint_run& run, Severity severity) {
  return static_cast<std::size_t>(
      std::count_if(run.findings.begin(), run.findings.end(),
                    [&](const Finding& finding) { return finding.severity == severity; }));
}
/// Findings that `--fix` mends.
inline std::size_t count_fixable(const Lint_run& run) {
  return static_cast<std::size_t>(
      std::count_if(run.findings.begin(), run.findings.end(),
                    [](const Finding& finding) { return safe_fix(finding) != nullptr; }));
}
inline std::size_t count_in_baseline(const Lint_run& run) {
  return static_cast<std::size_t>(
      std::count_if(run.suppressed.begin(), run.suppressed.end(), [](const Finding& finding) {
        return finding.suppressed && finding.suppressed->by == Suppressed_by::baseline;
      }));
}

}
