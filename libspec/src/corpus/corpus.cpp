#include "ohmlore/corpus.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "corpus/files.h"
#include "corpus/roots.h"

namespace ohmlore {

static Severity severity_of(Failing_level level) {
  switch (level) {
  case Failing_level::note: return Severity::note;
  case Failing_level::warning: return Severity::warning;
  case Failing_level::error: return Severity::error;
  }
  return Severity::error;
}

Lint_run lint_paths(const Lint_request& request) {
  Lint_run run;
  Roots roots(request.root, run.troubles);
  // Facts agree within one root; documents without a root are judged together.
  struct Group {
    const Root* root = nullptr;
    std::vector<Linted> linted;
    std::vector<Fact> facts;
  };
  std::vector<Group> groups;
  std::map<std::string, std::size_t> order;

  for (const std::string& file : files_of(request.paths, run.troubles)) {
    std::string why;
    const auto bytes = file == "-" ? std::optional(request.standard_input) : read_file(file, why);
    if (!bytes) {
      run.troubles.push_back(fmt::format("{}: cannot be read: {}", file, why));
      continue;
    }
    ++run.files_read;
    const Root* root = roots.of(file);
    auto group = std::find_if(groups.begin(), groups.end(), [&](const Group& g) { return g.root == root; });
    if (group == groups.end()) group = groups.insert(groups.end(), {root, {}, {}});
    const Read_result read = read_json(file == "-" ? "standard input" : file, *bytes);
    Linted linted = lint_document(read, root ? root->surroundings() : Surroundings{});
    order.emplace(linted.file, order.size());
    std::move(linted.facts.begin(), linted.facts.end(), std::back_inserter(group->facts));
    linted.facts.clear();
    group->linted.push_back(std::move(linted));
  }
  for (Group& group : groups) {
    const Corpus* corpus = group.root ? group.root->corpus : nullptr;
    std::vector<Finding> settled =
        settle(std::move(group.linted), judge_facts(std::move(group.facts)), corpus, request.options);
    const Severity from_policy =
        corpus && corpus->policy.fail_on ? severity_of(*corpus->policy.fail_on) : Severity::error;
    const Severity fail_on = request.fail_on.value_or(from_policy);
    for (const Finding& finding : settled)
      if (finding.severity >= fail_on && find_rule(finding.rule)->rule->status != Rule_status::preview)
        ++run.failing;
    std::move(settled.begin(), settled.end(), std::back_inserter(run.findings));
  }
  std::stable_sort(run.findings.begin(), run.findings.end(),
                   [&](const Finding& a, const Finding& b) { return order[a.file] < order[b.file]; });
  return run;
}

}
