#include "ohmlore/plan.h"
#include "corpus/open_profile.h"

namespace ohmlore {

Plan_run plan_file(const std::string& profile, const Plan_request& request, const Judge_means& means,
                   const std::optional<std::string>& root) {
  Plan_run run;
  Opened_profile opened(profile, root, "planned");
  run.findings = std::move(opened.findings);
  if (opened.resolved) {
    run.plan = plan(*opened.resolved, request, means);
    for (const std::string& problem : run.plan->problems) opened.troubles.push_back(problem);
  }
  run.troubles = std::move(opened.troubles);
  return run;
}

}
