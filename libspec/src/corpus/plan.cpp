#include "corpus/open_profile.h"
#include "ohmlore/job.h"

namespace ohmlore {
namespace {

Plan_run run_of(Opened_profile& opened, const Plan_request& request, const Judge_means& means) {
  Plan_run run;
  if (opened.resolved) {
    run.plan = plan(*opened.resolved, request, means);
    opened.warn(run.plan->cautions);
    for (const std::string& problem : run.plan->problems) opened.troubles.push_back(problem);
  }
  run.findings = std::move(opened.findings);
  run.warnings = std::move(opened.warnings);
  run.troubles = std::move(opened.troubles);
  return run;
}

}

Plan_run plan_file(const std::string& profile, const Plan_request& request, const Judge_means& means,
                   const std::optional<std::string>& root) {
  Opened_profile opened(profile, root, "planned");
  return run_of(opened, request, means);
}

Job_run plan_job(const std::string& profile, Plan_request request, Job before, Judge_means means,
                 const std::optional<std::string>& root) {
  Job_run job;
  std::vector<std::string> problems;
  add_means(before, means, problems);
  request.readings = readings_of(before, problems);
  if (request.codes.empty()) request.codes = before.codes;
  if (!request.model && !before.model.empty()) request.model = before.model;
  if (!request.software && !before.software.empty()) request.software = before.software;
  if (!problems.empty()) {
    job.run.troubles = std::move(problems);
    return job;
  }
  Opened_profile opened(profile, root, "planned");
  if (opened.resolved) {
    if (std::string problem = of_another_profile(before, *opened.resolved); !problem.empty()) {
      job.run.troubles.push_back(std::move(problem));
      return job;
    }
  }
  job.run = run_of(opened, request, means);
  if (!job.run.plan || !opened.resolved) return job;
  if (before.model.empty() && request.model) before.model = *request.model;
  if (before.software.empty() && request.software) before.software = *request.software;
  for (std::string& change : changes_since(before, *opened.resolved))
    job.run.plan->remarks.push_back(std::move(change));
  job.record = record_of(*opened.resolved, *job.run.plan, before);
  return job;
}

}
