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

// What a record was written by may have changed since; 0 and an empty hash are not stated.
void add_change(const std::string& what, const Job_source& was, const Job_source& is,
                std::vector<std::string>& remarks) {
  const bool revised = was.revision != 0 && was.revision != is.revision;
  if (!revised && (was.hash.empty() || was.hash == is.hash)) return;
  const std::string by =
      revised ? fmt::format("revision {} of {}, which now has revision {}", was.revision, what, is.revision)
              : fmt::format("another file of {} than this one, of revision {}", what, is.revision);
  remarks.push_back(fmt::format("the record was written by {}: look whether the tests are the same; all "
                                "readings are judged anew, by what it is now",
                                by));
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
  std::vector<std::string>& remarks = job.run.plan->remarks;
  add_change("the profile", {before.profile, before.hash, before.revision},
             {job.record.profile, job.record.hash, job.record.revision}, remarks);
  for (const Job_source& was : before.parts)
    for (const Job_source& is : job.record.parts)
      if (was.id == is.id) add_change("part " + is.id, was, is, remarks);
  return job;
}

}
