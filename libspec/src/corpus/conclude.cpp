#include "corpus/conclude.h"

#include <algorithm>
#include <filesystem>
#include <map>
#include <new>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "corpus/files.h"
#include "corpus/lint_run.h"
#include "ohmlore/description.h"
#include "ohmlore/file_names.h"

namespace ohmlore {

namespace {
// The documents of one root: facts agree within it. Those without a root are judged together.
struct Group {
  const Root* root = nullptr;
  std::vector<Linted> linted;
  std::set<std::string, std::less<>> touched; ///< files of these, unless it is all
};
}

static std::vector<Group> grouped(std::vector<Gathered> documents) {
  const bool all = std::all_of(documents.begin(), documents.end(),
                               [](const Gathered& document) { return document.touched; });
  std::vector<Group> groups;
  for (Gathered& document : documents) {
    if (!document.read) continue;
    auto group =
        std::find_if(groups.begin(), groups.end(), [&](const Group& g) { return g.root == document.root; });
    if (group == groups.end()) {
      group = groups.insert(groups.end(), Group{});
      group->root = document.root;
    }
    if (!all && document.touched) group->touched.insert(document.linted.file);
    group->linted.push_back(std::move(document.linted));
  }
  return groups;
}

// What corpus-wide rules say: all of it, or what documents that are looked at have to do with.
static std::vector<Finding> judged(Group& group, bool all, const Facts_of& facts_of_document,
                                   const Gone& gone, std::vector<std::string>& troubles) {
  if (!all && group.touched.empty() && gone.documents.empty() && !gone.folder)
    return {}; // nothing is brought
  std::vector<Fact> facts;
  for (Linted& linted : group.linted)
    std::move(linted.facts.begin(), linted.facts.end(), std::back_inserter(facts));
  for (const std::size_t document : contested(group.linted)) {
    auto more = facts_of_document(group.linted[document], group.root, troubles);
    std::move(more.begin(), more.end(), std::back_inserter(facts));
  }
  return judge_facts(std::move(facts), all ? nullptr : &group.touched);
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

// Whether one of the folders holds this one.
static bool hold(const std::vector<std::string>& folders, const std::filesystem::path& folder) {
  return std::any_of(folders.begin(), folders.end(),
                     [&](const std::string& outer) { return lies_in(folder, outer); });
}

static void note(const Group& group, bool all, Looked_at& looked_at) {
  std::set<std::string> left_out;
  for (const Linted& linted : group.linted) {
    // What cannot be read may be any of those that are not seen.
    const bool may_be_any = linted.document.starts_with("file ") && !linted.whole;
    if (may_be_any) looked_at.gone.clear();
    if (!all && !group.touched.contains(linted.file)) {
      left_out.insert(text_in_keys(linted.document));
      continue;
    }
    auto& seen = looked_at.documents[text_in_keys(linted.document)];
    seen.whole = seen.whole && linted.whole;
    seen.all_rules_ran = seen.all_rules_ran && linted.all_rules_ran;
    if (may_be_any) looked_at.everything = false;
  }
  for (auto& [name, seen] : looked_at.documents) seen.alone = seen.alone && !left_out.contains(name);
  if (group.root == nullptr || group.root->corpus == nullptr) return;
  Redirects redirects = redirected_documents(*group.root->corpus);
  for (const std::string& name : left_out) redirects.erase(name); // it is there: what it had stays its own
  looked_at.redirects.merge(redirects);
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

static const Corpus* corpus_of(const Root* root) { return root ? root->corpus : nullptr; }

static Severity fail_on(const Lint_request& request, const Root* root) {
  return request.fail_on.value_or(failing_level(corpus_of(root)));
}

// A root below that of the baseline is not all that its entries may speak of.
static bool all_of_baseline(const Lint_request& request, const std::vector<std::string>& folders,
                            const Root* of_documents, Roots& roots) {
  const Root* of_baseline = roots.of(*request.baseline);
  const Root* outer = of_baseline ? of_baseline : of_documents;
  return hold(folders, outer ? outer->folder : folder_of_baseline(request)) &&
         (of_documents == nullptr || hold(folders, of_documents->folder));
}

namespace {
// What the corpus of a file decides for its findings, and where they come in a run.
struct Known_file {
  std::size_t order = 0;
  Severity fail_on = Severity::error;
  const Corpus* corpus = nullptr;
};
using Known_files = std::map<std::string, Known_file, std::less<>>;
}

static void add_file(Known_files& known, const std::string& file, const Root* root,
                     const Lint_request& request) {
  known.emplace(file, Known_file{known.size(), fail_on(request, root), corpus_of(root)});
}

// Each document's own troubles and name go to the run.
static Known_files known_files(std::vector<Gathered>& documents, const Lint_request& request, Lint_run& run) {
  Known_files known;
  for (Gathered& document : documents) {
    Linted& linted = document.linted;
    add_others(run.troubles, std::move(linted.troubles));
    if (!document.read) continue;
    add_file(known, linted.file, document.root, request);
    if (document.touched)
      run.files.push_back(linted.file);
    else
      ++run.files_unchanged;
  }
  run.files_read = run.files.size();
  return known;
}

static void add_house_schema(const Root* root, Lint_run& run) {
  const Corpus* corpus = corpus_of(root);
  if (corpus != nullptr && corpus->house_schema)
    run.house_schemas.push_back(root->house_schema_path().string());
}

// A look at corpus.json finds what its policy asks of a rule that there is not. A run without that look would
// be green by a policy that its keeper did not write.
static void add_policy_problem(const Group& group, bool all, std::vector<std::string>& troubles) {
  const Corpus* corpus = corpus_of(group.root);
  const bool is_looked_at = std::any_of(group.linted.begin(), group.linted.end(), [&](const Linted& linted) {
    return linted.is_corpus && (all || group.touched.contains(linted.file));
  });
  if (corpus == nullptr || is_looked_at) return;
  const Document& document = group.root->read.document;
  if (document.minor() > reader_minor) return;
  for (const auto& entry : corpus->policy.severities) {
    if (find_rule(entry.id) != nullptr) continue;
    const Node& key = document.node(entry.key);
    const Position place = document.region(key.begin, key.end).first;
    troubles.push_back(fmt::format("{}:{}:{}: there is no rule {}, so this line of the policy has no effect; "
                                   "linting the file says more",
                                   document.name(), place.line, place.column, entry.id));
  }
}

static void settle_group(Group& group, const Lint_request& request, const Conclusion& with,
                         Looked_at& looked_at, Lint_run& run) {
  for (const Linted& linted : group.linted) looked_at.gone.erase(linted.document); // it stands elsewhere
  for (Linted& linted : group.linted)
    if (linted.document.empty())
      linted.document =
          name_by_path(linted.file, group.root ? group.root->folder : folder_of_baseline(request));
  const bool all = run.files_unchanged == 0;
  note(group, all, looked_at);
  if (!request.options.part_of_run) add_policy_problem(group, all, run.troubles);
  std::vector<Finding> over_the_corpus;
  if (!request.options.part_of_run) try {
      over_the_corpus = judged(group, all, with.facts_of, with.gone, run.troubles);
    } catch (const std::bad_alloc&) { // both as of rules that look at one document
      throw;
    } catch (const std::exception& thrown) {
      run.troubles.push_back(fmt::format("a rule over the corpus could not do its work: {}", thrown.what()));
      looked_at.everything = false;
    }
  std::vector<Finding> settled = settle(std::move(group.linted), std::move(over_the_corpus),
                                        corpus_of(group.root), request.options, &run.suppressed);
  if (run.findings.empty())
    run.findings = std::move(settled);
  else
    std::move(settled.begin(), settled.end(), std::back_inserter(run.findings));
}

// What the baseline knows is suppressed; what is found of itself is a finding as any.
static void hold_against_baseline(const std::vector<Group>& groups, const Lint_request& request,
                                  const Conclusion& with, Looked_at& looked_at, Known_files& known,
                                  Lint_run& run) {
  const Root* of_documents = groups.empty() ? nullptr : groups.front().root;
  const std::string unfit = several_corpora(groups, *request.baseline);
  if (!unfit.empty()) run.troubles.push_back(unfit);
  if (!all_of_baseline(request, with.folders, of_documents, with.roots)) {
    looked_at.everything = false;
    looked_at.gone.clear();
  }
  if (!unfit.empty() || (with.renew && !with.renew(run, looked_at))) return;
  const auto baseline = open_baseline(*request.baseline, run.troubles);
  if (!baseline) return;
  std::vector<Linted> alone(1);
  Linted& linted = alone.front();
  linted.file = *request.baseline;
  linted.findings = apply_baseline(*baseline, run.findings, run.suppressed, looked_at, request.options);
  if (request.options.part_of_run) linted.findings.clear();
  const Root* root = groups.empty() ? with.roots.of(*request.baseline) : of_documents;
  add_file(known, linted.file, root, request);
  std::vector<Finding> about_it = settle(std::move(alone), {}, corpus_of(root), request.options);
  std::move(about_it.begin(), about_it.end(), std::back_inserter(run.findings));
}

static void put_in_order(Lint_run& run, Known_files& known) {
  for (std::vector<Finding>* findings : {&run.findings, &run.suppressed})
    std::stable_sort(findings->begin(), findings->end(), [&](const Finding& a, const Finding& b) {
      return std::tuple(known[a.file].order, a.region.begin, a.rule) <
             std::tuple(known[b.file].order, b.region.begin, b.rule);
    });
  for (Finding& finding : run.findings) {
    const Known_file& file = known[finding.file];
    finding.fails = fails(finding, file.fail_on, file.corpus);
    run.failing += finding.fails;
  }
}

Lint_run conclude(std::vector<Gathered> documents, const Lint_request& request, Conclusion with) {
  Lint_run run;
  run.troubles = std::move(with.troubles);
  Known_files known = known_files(documents, request, run);
  Looked_at looked_at;
  looked_at.everything = run.troubles.empty() && run.files_unchanged == 0;
  if (run.troubles.empty()) looked_at.gone = with.gone.documents;
  std::vector<Group> groups = grouped(std::move(documents));
  for (Group& group : groups) {
    add_house_schema(group.root, run);
    settle_group(group, request, with, looked_at, run);
  }
  if (request.baseline) hold_against_baseline(groups, request, with, looked_at, known, run);
  tell_once(run.findings);
  put_in_order(run, known);
  return run;
}

}
