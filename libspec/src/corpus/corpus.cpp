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

namespace {
// The documents of one root: facts agree within it. Those without a root are judged together.
struct Group {
  const Root* root = nullptr;
  std::vector<Read_result> in_hand; ///< read, not yet linted
  std::size_t bytes = 0;            ///< of those
  std::vector<Linted> linted;
  std::vector<Fact> facts;
};
}

static void lint_batch(Group& group) {
  for (Linted& linted :
       lint_documents(group.in_hand, group.root ? group.root->surroundings() : Surroundings{})) {
    std::move(linted.facts.begin(), linted.facts.end(), std::back_inserter(group.facts));
    linted.facts.clear();
    group.linted.push_back(std::move(linted));
  }
  group.in_hand.clear();
  group.bytes = 0;
}

static void add(Group& group, Read_result read) {
  constexpr std::size_t bytes_at_once = 1 << 20; // a large document ends its batch
  group.bytes += read.document.text().size();
  group.in_hand.push_back(std::move(read));
  if (group.in_hand.size() >= batch || group.bytes >= bytes_at_once) lint_batch(group);
}

Lint_run lint_paths(const Lint_request& request) {
  Lint_run run;
  Roots roots(request.root, run.troubles);
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
    if (group == groups.end())
      group = groups.insert(groups.end(), Group{.root = root, .in_hand = {}, .linted = {}, .facts = {}});
    const std::string name = file == "-" ? "standard input" : file;
    order.emplace(name, order.size());
    add(*group, read_json(name, *bytes));
  }
  for (Group& group : groups) {
    lint_batch(group);
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
