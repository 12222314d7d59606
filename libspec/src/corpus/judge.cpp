#include "ohmlore/judge.h"
#include "corpus/open_profile.h"

namespace ohmlore {

Judge_run judge_file(const std::string& profile, std::span<const Judge_request> requests,
                     const Judge_means& means, const std::optional<std::string>& root) {
  Judge_run run;
  Opened_profile opened(profile, root, "judged");
  if (opened.resolved) {
    run.verdict = judge(*opened.resolved, requests, means);
    opened.warn(run.verdict->cautions);
    for (const std::string& problem : run.verdict->problems) opened.troubles.push_back(problem);
  }
  run.findings = std::move(opened.findings);
  run.troubles = std::move(opened.troubles);
  return run;
}

}
