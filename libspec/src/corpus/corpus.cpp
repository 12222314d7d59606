#include "ohmlore/corpus.h"

#include <algorithm>
#include <filesystem>
#include <map>
#include <tuple>

#include <fmt/format.h>

#include "corpus/files.h"
#include "corpus/lint_run.h"
#include "corpus/roots.h"
#include "ohmlore/file_names.h"

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
  std::vector<std::string> files; ///< of those, as they are opened
};
}

static Surroundings surroundings_of(const Group& group) {
  return group.root ? group.root->surroundings() : Surroundings{};
}

static void lint_batch(Group& group) {
  for (Linted& linted : lint_documents(group.in_hand, surroundings_of(group), all_rules(), Kept_facts::marks))
    group.linted.push_back(std::move(linted));
  group.in_hand.clear();
  group.bytes = 0;
}

static std::optional<std::string> bytes_of(const std::string& file, const Lint_request& request,
                                           std::vector<std::string>& troubles) {
  if (file == "-") return request.standard_input;
  std::string why;
  auto bytes = read_file(file, why);
  if (!bytes) troubles.push_back(fmt::format("{}: cannot be read: {}", file, why));
  return bytes;
}

// What corpus-wide rules say. Documents whose facts others contradict are read a second time.
static std::vector<Finding> judged(const Group& group, const Lint_request& request,
                                   std::vector<std::string>& troubles) {
  std::vector<Fact> facts;
  for (const std::size_t document : contested(group.linted))
    if (const auto bytes = bytes_of(group.files[document], request, troubles)) {
      auto more = facts_of(read_json(group.linted[document].file, *bytes), surroundings_of(group));
      std::move(more.begin(), more.end(), std::back_inserter(facts));
    }
  return judge_facts(std::move(facts));
}

static void add(Group& group, Read_result read) {
  constexpr std::size_t bytes_at_once = 1 << 20; // a large document ends its batch
  group.bytes += read.document.text().size();
  group.in_hand.push_back(std::move(read));
  if (group.in_hand.size() >= batch || group.bytes >= bytes_at_once) lint_batch(group);
}

// The folder that a baseline lies in, or the current one.
static std::filesystem::path folder_of_baseline(const Lint_request& request) {
  return std::filesystem::path(request.baseline.value_or("")).parent_path() / ".";
}

// What has no id is known by its path from the folder of the corpus, wherever the program is run and however
// the path is spelt.
static std::string name_by_path(const std::string& file, const std::filesystem::path& folder) {
  namespace fs = std::filesystem;
  std::error_code error;
  if (file == name_of_standard_input) return fmt::format("file {}", file);
  const fs::path inside = fs::proximate(file, folder, error);
  return fmt::format("file {}", error ? file : inside.generic_string());
}

// Whether one of the paths is a folder that holds this one.
static bool holds(const std::vector<std::string>& paths, const std::filesystem::path& folder) {
  return std::any_of(paths.begin(), paths.end(), [&](const std::string& path) {
    std::error_code error;
    return std::filesystem::is_directory(path, error) && lies_in(folder, path);
  });
}

static void note(const Group& group, Looked_at& looked_at) {
  for (const Linted& linted : group.linted) {
    auto& seen = looked_at.documents[text_in_keys(linted.document)];
    seen.whole = seen.whole && linted.whole;
    seen.all_rules_ran = seen.all_rules_ran && linted.all_rules_ran;
    // It may be any of those that are not seen.
    if (linted.document.starts_with("file ") && !linted.whole) looked_at.everything = false;
  }
  if (group.root == nullptr || group.root->corpus == nullptr) return;
  looked_at.redirects.merge(redirected_documents(*group.root->corpus));
  for (const auto& entry : group.root->corpus->policy.severities)
    if (entry.value && *entry.value == Severity::off) looked_at.switched_off.emplace(entry.id);
}

// Why one baseline does not do for the documents of a run, or nothing.
static std::string several_corpora(const std::vector<Group>& groups, const std::string& baseline) {
  if (groups.size() < 2) return {};
  std::string names;
  for (const Group& group : groups)
    names += fmt::format("{}{}", names.empty() ? "" : ", ",
                         group.root ? group.root->folder.string() : std::string("files of none"));
  return fmt::format(
      "{}: a baseline is of one corpus, and these documents are of several ({}); lint each with "
      "a baseline of its own, or name one --root for all",
      baseline, names);
}

Lint_run lint_request(const Lint_request& request, Looked_at* asked) {
  Lint_run run;
  Roots roots(request.root, run.troubles);
  std::vector<Group> groups;
  struct Known_file {
    std::size_t order = 0;
    Severity fail_on = Severity::error;
    const Corpus* corpus = nullptr;
  };
  std::map<std::string, Known_file> known;
  const auto fail_on = [&](const Root* root) {
    const Corpus* corpus = root ? root->corpus : nullptr;
    return request.fail_on.value_or(corpus && corpus->policy.fail_on ? severity_of(*corpus->policy.fail_on)
                                                                     : Severity::error);
  };

  for (const std::string& file : files_of(request.paths, run.troubles)) {
    const auto bytes = bytes_of(file, request, run.troubles);
    if (!bytes) continue;
    const Root* root = roots.of(file);
    auto group = std::find_if(groups.begin(), groups.end(), [&](const Group& g) { return g.root == root; });
    if (group == groups.end())
      group = groups.insert(groups.end(), Group{.root = root, .in_hand = {}, .linted = {}, .files = {}});
    const std::string name = file == "-" ? std::string(name_of_standard_input) : file;
    known.emplace(name, Known_file{known.size(), fail_on(root), root ? root->corpus : nullptr});
    run.files.push_back(name);
    group->files.push_back(file);
    add(*group, read_json(name, *bytes));
  }
  run.files_read = run.files.size();

  Looked_at looked_at;
  looked_at.everything = run.troubles.empty();
  for (Group& group : groups) {
    lint_batch(group);
    for (Linted& linted : group.linted) {
      if (linted.document.empty())
        linted.document =
            name_by_path(linted.file, group.root ? group.root->folder : folder_of_baseline(request));
      std::move(linted.troubles.begin(), linted.troubles.end(), std::back_inserter(run.troubles));
    }
    note(group, looked_at);
    std::vector<Finding> over_the_corpus;
    try {
      over_the_corpus = judged(group, request, run.troubles);
    } catch (const std::exception& thrown) { // as of rules that look at one document
      run.troubles.push_back(fmt::format("a rule over the corpus could not do its work: {}", thrown.what()));
      looked_at.everything = false;
    }
    std::vector<Finding> settled =
        settle(std::move(group.linted), std::move(over_the_corpus), group.root ? group.root->corpus : nullptr,
               request.options, &run.suppressed);
    std::move(settled.begin(), settled.end(), std::back_inserter(run.findings));
  }

  std::vector<Finding> about_baseline;
  std::string unfit;
  if (request.baseline) {
    unfit = several_corpora(groups, *request.baseline);
    if (!unfit.empty()) run.troubles.push_back(unfit);
    // A root below that of the baseline is not all that its entries may speak of.
    const Root* of_documents = groups.empty() ? nullptr : groups.front().root;
    const Root* of_baseline = roots.of(*request.baseline);
    const Root* outer = of_baseline ? of_baseline : of_documents;
    if (!holds(request.paths, outer ? outer->folder : folder_of_baseline(request)) ||
        (of_documents && !holds(request.paths, of_documents->folder)))
      looked_at.everything = false;
  }
  if (request.baseline && unfit.empty() && asked == nullptr)
    if (const auto baseline = open_baseline(*request.baseline, run.troubles)) {
      Linted linted;
      linted.file = *request.baseline;
      linted.findings = apply_baseline(*baseline, run.findings, run.suppressed, looked_at, request.options);
      const Root* root = groups.empty() ? roots.of(*request.baseline) : groups.front().root;
      known.emplace(linted.file, Known_file{known.size(), fail_on(root), root ? root->corpus : nullptr});
      std::vector<Linted> alone;
      alone.push_back(std::move(linted));
      about_baseline = settle(std::move(alone), {}, root ? root->corpus : nullptr, request.options);
    }
  std::move(about_baseline.begin(), about_baseline.end(), std::back_inserter(run.findings));
  for (std::vector<Finding>* findings : {&run.findings, &run.suppressed})
    std::stable_sort(findings->begin(), findings->end(), [&](const Finding& a, const Finding& b) {
      return std::tuple(known[a.file].order, a.region.begin, a.rule) <
             std::tuple(known[b.file].order, b.region.begin, b.rule);
    });
  for (Finding& finding : run.findings) {
    finding.fails = finding.severity >= known[finding.file].fail_on &&
                    may_fail(*find_rule(finding.rule)->rule, known[finding.file].corpus);
    run.failing += finding.fails;
  }
  if (asked != nullptr) *asked = std::move(looked_at);
  return run;
}

Lint_run lint_paths(const Lint_request& request) { return lint_request(request); }

}
