#include "ohmlore/corpus.h"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <map>
#include <memory>
#include <set>

#include <fmt/format.h>

namespace ohmlore {
namespace fs = std::filesystem;

std::optional<std::string> read_file(const std::string& path, std::string& why) {
  const auto close = [](std::FILE* file) { std::fclose(file); };
  errno = 0;
  std::error_code error;
  if (fs::is_directory(path, error)) {
    why = "it is a folder";
    return std::nullopt;
  }
  const std::unique_ptr<std::FILE, decltype(close)> file(std::fopen(path.c_str(), "rb"), close);
  if (!file) {
    why = std::strerror(errno);
    return std::nullopt;
  }
  std::string bytes;
  char block[1 << 16];
  for (std::size_t n; (n = std::fread(block, 1, sizeof block, file.get())) > 0 && bytes.size() <= most_bytes;)
    bytes.append(block, n);
  if (std::ferror(file.get()) != 0) {
    why = std::strerror(errno);
    return std::nullopt;
  }
  return bytes;
}

namespace {

constexpr std::string_view corpus_file = "corpus.json";

Severity severity_of(Failing_level level) {
  switch (level) {
  case Failing_level::note: return Severity::note;
  case Failing_level::warning: return Severity::warning;
  case Failing_level::error: return Severity::error;
  }
  return Severity::error;
}

bool is_document_name(const std::string& name) {
  return name.ends_with(".profile.json") || name.ends_with(".part.json") || name == corpus_file;
}

// All documents below a folder, sorted by path; hidden entries and links to folders are left out.
std::vector<std::string> documents_below(const fs::path& folder, std::vector<std::string>& troubles) {
  std::vector<std::string> found;
  std::error_code error;
  fs::recursive_directory_iterator at(folder, error), end;
  while (!error && at != end) {
    const std::string name = at->path().filename().string();
    const fs::path path = folder == "." ? at->path().lexically_relative(folder) : at->path();
    std::error_code ignored;
    if (name.starts_with('.')) {
      if (at->is_directory(ignored)) at.disable_recursion_pending();
    } else if (is_document_name(name) && !at->is_directory(ignored)) {
      // A broken link is a document that cannot be read: kept, so that reading it says so.
      if (at->is_regular_file(ignored) || !at->exists(ignored))
        found.push_back(path.string());
      else
        troubles.push_back(fmt::format("{}: is no plain file", path.string()));
    }
    at.increment(error);
  }
  if (error) troubles.push_back(fmt::format("{}: cannot be searched: {}", folder.string(), error.message()));
  std::sort(found.begin(), found.end());
  return found;
}

// True where `inner`, links followed, lies in `outer`.
bool lies_in(const fs::path& inner, const fs::path& outer) {
  std::error_code error;
  const fs::path a = fs::weakly_canonical(inner, error);
  const fs::path b = error ? fs::path() : fs::weakly_canonical(outer, error);
  if (error) return false;
  return std::mismatch(b.begin(), b.end(), a.begin(), a.end()).first == b.end();
}

struct Root {
  fs::path folder;
  Read_result read;
  Parts parts;
  const Corpus* corpus = nullptr; ///< null where the document has errors: then there is no root to speak of
  Surroundings surroundings() const { return {corpus, corpus ? &parts : nullptr}; }
};

const Finding* first_error(const std::vector<Finding>& findings) {
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [](const Finding& f) { return f.severity == Severity::error; });
  return found == findings.end() ? nullptr : &*found;
}

std::unique_ptr<Root> load_root(const fs::path& folder, std::vector<std::string>& troubles) {
  auto root = std::make_unique<Root>();
  root->folder = folder;
  const std::string path = (folder / corpus_file).lexically_normal().string();
  std::string why;
  const auto bytes = read_file(path, why);
  if (!bytes) {
    troubles.push_back(fmt::format("{}: cannot be read: {}", path, why));
    return root;
  }
  root->read = read_json(path, *bytes);
  const Corpus* corpus = root->read.document.corpus();
  const Finding* first = first_error(root->read.findings);
  if (corpus == nullptr || first != nullptr) {
    troubles.push_back(
        first ? fmt::format("{}:{}:{}: the policy and the parts of this corpus cannot be used: {}", path,
                            first->region.first.line, first->region.first.column, first->message)
              : fmt::format("{}: is no document of kind `corpus`", path));
    return root;
  }
  root->corpus = corpus;
  if (corpus->house_schema) // never green where a check was asked for and not made
    troubles.push_back(fmt::format("{}: `house_schema` is not checked by this version; leave it out", path));
  std::vector<std::string> folders;
  for (const Value<Text>& part_path : corpus->part_paths)
    if (part_path) folders.emplace_back(*part_path);
  if (folders.empty()) folders.emplace_back("parts");
  for (const std::string& name : folders) {
    const fs::path part_folder = (folder / name).lexically_normal();
    std::error_code error;
    if (!fs::exists(part_folder, error)) {
      if (corpus->part_paths)
        troubles.push_back(
            fmt::format("{}: `part_paths` names it, but it is not there", part_folder.string()));
      continue;
    }
    if (!lies_in(part_folder, folder)) {
      troubles.push_back(
          fmt::format("{}: `part_paths` leads out of the root {}", part_folder.string(), folder.string()));
      continue;
    }
    for (const std::string& file : documents_below(part_folder, troubles)) {
      if (!file.ends_with(".part.json")) continue;
      if (!lies_in(file, folder)) {
        troubles.push_back(fmt::format("{}: a link that leads out of the root {}", file, folder.string()));
        continue;
      }
      const auto part_bytes = read_file(file, why);
      if (!part_bytes) {
        troubles.push_back(fmt::format("{}: cannot be read: {}", file, why));
        root->parts.add_broken(fs::path(file).filename().string(), file);
        continue;
      }
      Read_result read = read_json(file, *part_bytes);
      if (read.document.part() != nullptr && first_error(read.findings) == nullptr)
        root->parts.add(std::move(read.document));
      else
        root->parts.add_broken(fs::path(file).filename().string(), file);
    }
  }
  return root;
}

// Roots by folder, each loaded once.
class Roots {
public:
  Roots(const Lint_request& request, std::vector<std::string>& troubles) : troubles_(troubles) {
    if (request.root) fixed_ = fs::path(*request.root);
  }
  // Null where there is none.
  const Root* of(const std::string& file) {
    if (fixed_) return load(*fixed_, *fixed_);
    std::error_code error;
    const fs::path given = file == "-" ? fs::path(".") / file : fs::path(file);
    fs::path folder = fs::absolute(given, error).lexically_normal().parent_path();
    const fs::path start = folder;
    if (const auto known = nearest_.find(start); known != nearest_.end()) return known->second;
    const Root* root = nullptr;
    for (;; folder = folder.parent_path()) {
      if (fs::exists(folder / corpus_file, error)) {
        // Shown as the file was given: a relative path in what is printed does not depend on the machine.
        const fs::path here = fs::current_path(error);
        root = load(folder, given.is_absolute() || error ? folder : folder.lexically_relative(here));
        break;
      }
      if (folder == folder.root_path() || folder.empty()) break;
    }
    return nearest_[start] = root;
  }

private:
  const Root* load(const fs::path& folder, const fs::path& shown) {
    auto& root = loaded_[folder.lexically_normal()];
    if (!root) root = load_root(shown, troubles_);
    return root.get();
  }
  std::optional<fs::path> fixed_;
  std::map<fs::path, std::unique_ptr<Root>> loaded_;
  std::map<fs::path, const Root*> nearest_;
  std::vector<std::string>& troubles_;
};

struct Input {
  std::string name;
  std::string bytes;
};

std::vector<std::string> files_of(const Lint_request& request, std::vector<std::string>& troubles) {
  std::vector<std::string> files;
  for (const std::string& path : request.paths) {
    std::error_code error;
    if (path != "-" && fs::is_directory(path, error)) {
      std::vector<std::string> below = documents_below(path, troubles);
      if (below.empty())
        troubles.push_back(
            fmt::format("{}: holds no *.profile.json, no *.part.json and no corpus.json", path));
      files.insert(files.end(), below.begin(), below.end());
    } else {
      files.push_back(path);
    }
  }
  // A file named twice is read once, however it is spelt.
  std::vector<std::string> once;
  std::set<fs::path> known;
  for (std::string& file : files) {
    std::error_code error;
    const fs::path real = file == "-" ? fs::path(file) : fs::weakly_canonical(file, error);
    if (known.insert(error ? fs::path(file) : real).second) once.push_back(std::move(file));
  }
  return once;
}

}

Lint_run lint_paths(const Lint_request& request) {
  Lint_run run;
  Roots roots(request, run.troubles);
  // Facts agree within one root; documents without a root are judged together.
  struct Group {
    const Root* root = nullptr;
    std::vector<Linted> linted;
    std::vector<Fact> facts;
  };
  std::vector<Group> groups;
  std::map<std::string, std::size_t> order;

  for (const std::string& file : files_of(request, run.troubles)) {
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
