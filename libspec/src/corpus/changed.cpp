#include "corpus/changed.h"

#include <algorithm>

#include <fmt/format.h>

#include "corpus/files.h"
#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"

namespace ohmlore {
namespace fs = std::filesystem;
namespace {

// The file name without its end.
std::string stem_of(const fs::path& path, std::string_view end) {
  const std::string name = path.filename().string();
  return name.substr(0, name.size() - end.size());
}

fs::path as_spelt(const fs::path& path) {
  std::error_code error;
  return fs::absolute(path, error).lexically_normal();
}

using Paths = std::unordered_set<std::string>; // absolute and normal

bool hold(const Paths& paths, fs::path path) {
  for (;; path = path.parent_path()) {
    if (paths.contains(path.native())) return true;
    if (!path.has_relative_path()) return false;
  }
}

// A file is listed by itself, or by a folder above it: git lists a submodule and a link to a folder as one
// path.
bool is_listed(const Changed& changed, const fs::path& file) {
  return hold(changed.listed, as_spelt(file)) || hold(changed.listed, real_path(file));
}

// Under which id its users knew a part that is gone, or is not named by its id, nobody says.
void add_part(const fs::path& path, Changed& changed) {
  const std::string stem = stem_of(path, end_of_part);
  std::string why;
  const auto bytes = read_file(path.string(), why);
  const Read_result read = read_json(path.string(), bytes.value_or(""));
  const Part* part = read.document.part();
  changed.parts.insert(stem);
  changed.any_part = changed.any_part || part == nullptr || !part->id || *part->id != stem;
}

// What a path says by its name. A folder outside of all roots had no document that one of a corpus could
// speak of.
void add_name(const fs::path& path, const fs::path& real, const Paths& roots, Changed& changed) {
  std::error_code error;
  const std::string name = path.filename().string();
  if (name == corpus_file) changed.corpora.insert(real.parent_path().native());
  if (name.ends_with(end_of_part)) add_part(path, changed);
  if (fs::exists(path, error)) return;
  if (name.ends_with(end_of_part)) changed.gone.documents.insert("part " + stem_of(path, end_of_part));
  if (name.ends_with(end_of_profile))
    changed.gone.documents.insert("profile " + stem_of(path, end_of_profile));
  changed.gone.folder = changed.gone.folder || (path.extension().empty() && hold(roots, real));
  changed.any_part = changed.any_part || changed.gone.folder;
}

// Its parts, its policy, its schema; a part may be named by an id that it had before, too.
void add_root(const Root& root, Changed& changed) {
  if (is_listed(changed, root.folder / corpus_file)) changed.roots.insert(&root);
  if (root.corpus == nullptr) return;
  if (root.corpus->house_schema && is_listed(changed, root.folder / *root.corpus->house_schema))
    changed.roots.insert(&root);
  for (const auto& [id, part] : root.parts)
    if (is_listed(changed, part.name())) changed.parts.insert(id);
  const auto is_changed = [&](std::string_view id) { return changed.parts.contains(id); };
  for (const auto& [old, now] : ends_of(redirects_of(root.corpus->redirects.parts), is_changed))
    changed.parts.insert(old);
}

// A list of another folder would be taken for a change of nothing, and be green without a look.
bool may_be_of_here(const fs::path& path) {
  std::error_code error;
  const fs::path folder = path.lexically_normal().parent_path();
  return folder.empty() || fs::exists(path, error) ||
         fs::is_directory(folder.is_absolute() ? folder : *folder.begin(), error);
}

// Documents, and what their roots name.
bool is_asked_for(const fs::path& path, const Gathering& run) {
  return is_document_name(path, ".json") ||
         std::any_of(run.roots.begin(), run.roots.end(), [&](const Root* root) {
           return root->corpus != nullptr && root->corpus->house_schema &&
                  fs::path(*root->corpus->house_schema).filename() == path.filename();
         });
}

}

Changed what_changed(const Lint_request& request, const Gathering& run, std::vector<std::string>& troubles) {
  Changed changed;
  if (request.changed->empty())
    troubles.emplace_back("the list of changed files is empty, so nothing was checked; if nothing changed, "
                          "do not ask");
  std::error_code error;
  const fs::path here = fs::current_path(error);
  Paths roots;
  for (const Root* root : run.roots) roots.insert(real_path(root->folder).native());
  Real_names real_names;
  bool fits = true;
  for (const std::string& path : *request.changed) {
    const std::string real = real_names.of(path);
    changed.listed.insert((here / path).lexically_normal().native());
    changed.listed.insert(real);
    add_name(path, real, roots, changed);
    if (!fits || !is_asked_for(path, run) || may_be_of_here(path)) continue;
    fits = false;
    troubles.push_back(fmt::format("the list of changed files does not fit this folder: neither {} nor its "
                                   "first folder is here; write the paths from here",
                                   path));
  }
  for (const Root* root : run.roots) add_root(*root, changed);
  changed.everything = request.baseline && is_listed(changed, *request.baseline);
  return changed;
}

bool touches(const Changed& changed, const Gathered& document, const std::vector<std::string>& parts) {
  const std::string& file = document.linted.file;
  const auto is_changed = [&](const std::string& id) {
    return changed.any_part || changed.parts.contains(id);
  };
  if (changed.everything || file == name_of_standard_input || changed.roots.contains(document.root) ||
      is_listed(changed, file) || std::any_of(parts.begin(), parts.end(), is_changed))
    return true;
  return !changed.corpora.empty() && hold(changed.corpora, real_path(file));
}

}
