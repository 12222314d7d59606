#include "ohmlore/judge.h"
#include "corpus/open_profile.h"
#include "ohmlore/job.h"

namespace ohmlore {

Judge_run judge_file(const std::string& profile, std::span<const Judge_request> requests,
                     const Judge_means& means, const std::optional<std::string>& root) {
  return judge_job(profile, requests, {}, means, root);
}

Judge_run judge_job(const std::string& profile, std::span<const Judge_request> requests, const Job& before,
                    const Judge_means& means, const std::optional<std::string>& root) {
  Judge_run run;
  Opened_profile opened(profile, root, "judged");
  if (std::string other = opened.resolved ? of_another_profile(before, *opened.resolved) : std::string();
      !other.empty()) {
    opened.troubles.push_back(std::move(other));
  } else if (opened.resolved) {
    run.verdict = judge(*opened.resolved, requests, means);
    std::vector<std::string>& cautions = run.verdict->cautions;
    const auto changes = changes_since(before, *opened.resolved);
    cautions.insert(cautions.begin(), changes.begin(), changes.end());
    opened.warn(cautions);
    for (const std::string& problem : run.verdict->problems) opened.troubles.push_back(problem);
  }
  run.findings = std::move(opened.findings);
  run.warnings = std::move(opened.warnings);
  run.troubles = std::move(opened.troubles);
  return run;
}

}
