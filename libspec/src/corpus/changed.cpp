#include "corpus/changed.h"

#include <algorithm>

#include <fmt/format.h>

#include "corpus/files.h"
#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"

namespace ohmlore {
namespace fs = std::filesystem;
namespace {

constexpr std::string_view end_of_part = ".part.json";

fs::path real(const fs::path& path) {
  std::error_code error;
  fs::path canonical = fs::weakly_canonical(path, error);
  return error ? path : canonical;
}

// By the name of the file, which is all that is known of one that is gone, and by what stands in it.
void add_part(const std::string& path, Changed& changed) {
  const std::string name = fs::path(path).filename().string();
  changed.parts.insert(name.substr(0, name.size() - end_of_part.size()));
  std::string why;
  const auto bytes = read_file(path, why);
  if (!bytes) return;
  const Read_result read = read_json(path, *bytes);
  if (const Part* part = read.document.part(); part != nullptr && part->id) changed.parts.emplace(*part->id);
}

// Its own documents, and those of which it is the policy or the schema.
void add_root(const fs::path& path, const Root& root, Changed& changed) {
  if (path == real(root.folder / corpus_file) ||
      (root.corpus && root.corpus->house_schema && path == real(root.folder / *root.corpus->house_schema)))
    changed.roots.insert(&root);
}

// A profile may name a part by an id that it had before.
void add_old_ids(const Root& root, Changed& changed) {
  if (root.corpus == nullptr) return;
  const Redirects redirects = redirects_of(root.corpus->redirects.parts);
  for (const auto& [old, next] : redirects) {
    const auto is_changed = [&](std::string_view id) { return changed.parts.contains(id); };
    if (!redirected(redirects, old, is_changed).empty()) changed.parts.insert(old);
  }
}

}

Changed what_changed(const std::vector<std::string>& paths, const Gathering& run,
                     std::vector<std::string>& troubles) {
  Changed changed;
  bool may_be_of_here = false;
  for (const std::string& path : paths) {
    std::error_code error;
    const fs::path canonical = real(path);
    may_be_of_here = may_be_of_here || fs::exists(canonical.parent_path(), error);
    changed.files.insert(canonical);
    if (path.ends_with(end_of_part)) add_part(path, changed);
    for (const Root* root : run.roots) add_root(canonical, *root, changed);
  }
  for (const Root* root : run.roots) add_old_ids(*root, changed);
  // A gate that took it for a change of nothing would be green without a look.
  if (paths.empty())
    troubles.emplace_back("the list of changed files is empty, so nothing was checked; if nothing changed, "
                          "do not ask");
  else if (!may_be_of_here)
    troubles.push_back(
        fmt::format("the list of changed files does not fit this folder: not even the folder of "
                    "{} is here; write the paths from here",
                    paths.front()));
  return changed;
}

bool touches(const Changed& changed, const Gathered& document, const std::vector<std::string>& parts) {
  return document.linted.file == name_of_standard_input || changed.roots.contains(document.root) ||
         changed.files.contains(real(document.linted.file)) ||
         std::any_of(parts.begin(), parts.end(),
                     [&](const std::string& id) { return changed.parts.contains(id); });
}

}
