// Baselines in files.
#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

#include "corpus/lint_run.h"
#include "lint/until.h"
#include "ohmlore/file_names.h"
#include "text/calendar.h"

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

// Puts what was found in the place of the old entries. Why it cannot is added to the troubles.
static void renew(const Baseline_request& request, const Baseline& old, const Lint_run& run,
                  const Looked_at& looked_at, Baseline_run& result) {
  const std::string& path = *request.lint.baseline;
  const Baseline_entry fresh{{}, 1, request.owner, request.why, request.until, 0};
  Renewed_baseline baseline =
      renewed(old.entries, run.findings, run.suppressed, looked_at, request.lint.options, fresh);
  result.added = baseline.added;
  result.kept = baseline.kept;
  result.removed = baseline.removed;
  for (const std::string& document : baseline.not_whole)
    result.troubles.push_back(fmt::format(
        "{}: not written: {} was not looked at to its end, and a baseline would hide what comes behind "
        "that; mend what `ohmlore lint` finds there first",
        path, document));
  if (!result.troubles.empty()) return;
  const std::string text = baseline_text(std::move(baseline.entries), old.free_members);
  std::string why;
  if (text.size() > most_bytes)
    result.troubles.push_back(
        fmt::format("{}: not written: with {} findings it would have more than {} MiB; switch "
                    "rules off by the policy of the corpus, or mend some",
                    path, result.added + result.kept, most_bytes >> 20));
  else if (const Baseline_read back = read_baseline(path, text); !back.problems.empty())
    result.troubles.push_back(
        fmt::format("{}: not written: it could not be read back: {}", path, back.problems.front()));
  else if (!write_file(path, text, why))
    result.troubles.push_back(fmt::format("{}: not written: {}", path, why));
}

Baseline_run write_baseline(const Baseline_request& request) {
  Baseline_run result;
  const std::string& path = *request.lint.baseline;
  Baseline old;
  std::error_code error;
  if (is_place_of_document(path)) {
    result.troubles.push_back(fmt::format("{}: no baseline is written there: the name is that of a document; "
                                          "name another, such as baseline.json",
                                          path));
    return result;
  }
  if (const std::string problem = calendar_problem(request.until); !problem.empty()) {
    result.troubles.push_back(fmt::format("{}: not written: {}", path, problem));
    return result;
  }
  if (has_ended(request.until, request.lint.options.today)) {
    result.troubles.push_back(fmt::format(
        "{}: not written: {} is past, so its new entries would forgive nothing", path, request.until));
    return result;
  }
  if (std::filesystem::exists(path, error)) {
    auto read = open_baseline(path, result.troubles);
    if (!read) return result;
    old = std::move(*read);
  }
  bool written = false;
  result.run = lint_request(request.lint, [&](const Lint_run& run, const Looked_at& looked_at) {
    if (run.files_read == 0)
      result.troubles.emplace_back("no document was read, so no baseline is written");
    else if (run.troubles.empty())
      renew(request, old, run, looked_at, result);
    written = run.troubles.empty() && result.troubles.empty();
    return written;
  });
  if (!written)
    result.troubles.insert(result.troubles.begin(), result.run.troubles.begin(), result.run.troubles.end());
  return result;
}

}
