// Baselines in files.
#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

#include "corpus/lint_run.h"

namespace ohmlore {

std::optional<Baseline> open_baseline(const std::string& path, std::vector<std::string>& troubles) {
  std::string why;
  const auto bytes = read_file(path, why);
  if (!bytes) {
    troubles.push_back(fmt::format("{}: the baseline cannot be read: {}", path, why));
    return std::nullopt;
  }
  Baseline_read read = read_baseline(path, *bytes);
  if (read.problems.empty()) return std::move(read.baseline);
  constexpr std::size_t most_shown = 5;
  for (std::size_t i = 0; i < std::min(read.problems.size(), most_shown); ++i)
    troubles.push_back(std::move(read.problems[i]));
  troubles.push_back(fmt::format(
      "{}: the baseline cannot be used before {} mended", path,
      read.problems.size() == 1 ? "this is" : fmt::format("its {} errors are", read.problems.size())));
  return std::nullopt;
}

Baseline_run write_baseline(const Baseline_request& request) {
  Baseline_run result;
  const std::string& path = *request.lint.baseline;
  std::vector<Baseline_entry> entries;
  std::error_code error;
  if (std::filesystem::exists(path, error)) {
    auto old = open_baseline(path, result.troubles);
    if (!old) return result;
    entries = std::move(old->entries);
  }
  Lint_request without = request.lint;
  without.baseline.reset();
  Looked_at looked_at;
  Lint_run run = lint_request(without, &looked_at);
  result.troubles = std::move(run.troubles);
  if (run.files_read == 0) result.troubles.emplace_back("no document was read, so no baseline is written");
  if (!result.troubles.empty()) return result;

  const Baseline_entry fresh{{}, 1, request.owner, request.why, request.until, 0};
  Renewed_baseline baseline = renewed(entries, run.findings, looked_at, request.lint.options, fresh);
  result.added = baseline.added;
  result.kept = baseline.kept;
  result.removed = baseline.removed;
  const std::string text = baseline_text(std::move(baseline.entries));
  std::string why;
  if (text.size() > most_bytes)
    result.troubles.push_back(
        fmt::format("{}: not written: with {} findings it would have more than {} MiB; switch "
                    "rules off by the policy of the corpus, or mend some",
                    path, result.added + result.kept, most_bytes >> 20));
  else if (!write_file(path, text, why))
    result.troubles.push_back(fmt::format("{}: not written: {}", path, why));
  return result;
}

}
