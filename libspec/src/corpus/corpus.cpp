#include "ohmlore/corpus.h"

#include <algorithm>
#include <filesystem>
#include <utility>

#include "corpus/conclude.h"
#include "corpus/lint_run.h"
#include "corpus/shard.h"

namespace ohmlore {

// Those of the paths that are folders: what lies in them was looked at.
static std::vector<std::string> folders_among(const std::vector<std::string>& paths) {
  std::vector<std::string> folders;
  std::error_code error;
  std::copy_if(paths.begin(), paths.end(), std::back_inserter(folders),
               [&](const std::string& path) { return std::filesystem::is_directory(path, error); });
  return folders;
}

Lint_run lint_request(const Lint_request& request, const Renew& renew) {
  std::vector<std::string> troubles, of_roots;
  Roots roots(request.root, of_roots);
  Gathering gathering = gather(request, roots, Kept_facts::marks, troubles);
  add_others(troubles, std::exchange(of_roots, {}));
  std::move(gathering.troubles.begin(), gathering.troubles.end(), std::back_inserter(troubles));
  const Facts_of again = [&](const Linted& linted, const Root* root, std::vector<std::string>& why_not) {
    return facts_again(linted, root, request, why_not);
  };
  const Renew renew_if_fit = [&](const Lint_run& so_far, const Looked_at& looked_at) {
    return of_roots.empty() && renew(so_far, looked_at);
  };
  Lint_run run = conclude(std::move(gathering.documents), request,
                          {std::move(troubles), folders_among(request.paths), roots, again,
                           std::move(gathering.gone), renew ? renew_if_fit : Renew()});
  add_others(run.troubles, std::move(of_roots)); // that of the baseline
  return run;
}

Lint_run lint_paths(const Lint_request& request) { return lint_request(request); }

Shard_run lint_shard(const Lint_request& request) {
  Shard_run result;
  std::string problem = request.shard ? shard_problem(*request.shard) : "no shard is named";
  if (!problem.empty()) {
    result.run.troubles.push_back(std::move(problem));
    return result;
  }
  std::vector<std::string> troubles, of_roots;
  Roots roots(request.root, of_roots);
  Gathering gathering = gather(request, roots, Kept_facts::whole, troubles);
  add_others(troubles, std::exchange(of_roots, {}));
  gathering.folders = folders_among(request.paths);
  gathering.root = request.root.value_or("");
  result.text = shard_text(*request.shard, gathering, troubles);
  std::move(gathering.troubles.begin(), gathering.troubles.end(), std::back_inserter(troubles));
  Lint_request alone = request;
  alone.options.part_of_run = true;
  result.run = conclude(std::move(gathering.documents), alone,
                        {std::move(troubles), std::move(gathering.folders), roots, {}, {}, {}});
  return result;
}

Lint_run merge_shards(std::span<const Shard_file> shards, const Lint_request& request) {
  std::vector<std::string> problems, of_roots;
  Joined all = joined(shards, problems);
  if (!problems.empty()) {
    Lint_run run;
    run.troubles = std::move(problems);
    return run;
  }
  Roots roots(all.root, of_roots); // for that of the baseline
  const Facts_of in_hand = [](const auto&...) { return std::vector<Fact>(); };
  Lint_run run = conclude(std::move(all.documents), request,
                          {std::move(all.troubles), std::move(all.folders), roots, in_hand, {}, {}});
  add_others(run.troubles, std::move(of_roots));
  return run;
}

}
