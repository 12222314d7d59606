#include <fmt/format.h>

#include "corpus/roots.h"
#include "ohmlore/corpus.h"
#include "ohmlore/judge.h"

namespace ohmlore {

Judge_run judge_file(const std::string& profile, std::span<const Judge_request> requests,
                     const Judge_means& means, const std::optional<std::string>& root) {
  Judge_run run;
  std::string why;
  const auto bytes = read_file(profile, why);
  if (!bytes) {
    run.troubles.push_back(fmt::format("{}: cannot be read: {}", profile, why));
    return run;
  }
  Read_result read = read_json(profile, *bytes);
  std::erase_if(read.findings, [](const Finding& finding) { return finding.severity != Severity::error; });
  if (!read.findings.empty()) {
    run.findings = std::move(read.findings);
    run.troubles.push_back(
        fmt::format("{}: nothing is judged by a profile that does not read without errors", profile));
    return run;
  }
  if (read.document.profile() == nullptr) {
    run.troubles.push_back(fmt::format("{}: this is a {}, and tests stand in a profile", profile,
                                       read.document.part() != nullptr ? "part" : "corpus"));
    return run;
  }
  Roots roots(root, run.troubles);
  const Root* around = roots.of(profile);
  if (!run.troubles.empty()) return run;
  const Resolved resolved =
      resolve(read.document, around != nullptr ? around->surroundings() : Surroundings{});
  run.verdict = judge(resolved, requests, means);
  for (const std::string& problem : run.verdict->problems) run.troubles.push_back(problem);
  return run;
}

}
