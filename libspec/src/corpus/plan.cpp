#include <fmt/format.h>

#include "corpus/open_profile.h"
#include "ohmlore/job.h"
#include "text/sha256.h"

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
  const std::string hash = "sha256:" + sha256(opened.bytes);
  if (opened.resolved) {
    const std::string id(*opened.resolved->document->profile()->id);
    if (!before.profile.empty() && before.profile != id) {
      job.run.troubles.push_back(
          fmt::format("the record is one of profile {}, not of {}", before.profile, id));
      return job;
    }
  }
  job.run = run_of(opened, request, means);
  if (!job.run.plan || !opened.resolved) return job;
  if (before.model.empty() && request.model) before.model = *request.model;
  if (before.software.empty() && request.software) before.software = *request.software;
  job.record = record_of(*opened.resolved, *job.run.plan, before, hash);
  const auto changed = [&](const std::string& what, std::int64_t then, std::int64_t now) {
    job.run.plan->remarks.push_back(fmt::format(
        "{} is no longer the file that the record was written with (revision {} then, {} now): all readings "
        "are judged anew, by what it is now",
        what, then, now));
  };
  if (!before.hash.empty() && before.hash != hash)
    changed("the profile", before.revision, job.record.revision);
  for (const Job_source& was : before.parts)
    for (const Job_source& is : job.record.parts)
      if (was.id == is.id && !was.hash.empty() && was.hash != is.hash)
        changed("part " + is.id, was.revision, is.revision);
  return job;
}

}
