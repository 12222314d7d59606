#include "corpus/roots.h"

#include <algorithm>

#include <fmt/format.h>

#include "corpus/files.h"
#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"
#include "text/sha256.h"

namespace ohmlore {
namespace fs = std::filesystem;

void add_others(std::vector<std::string>& troubles, std::vector<std::string> more) {
  for (std::string& trouble : more)
    if (std::find(troubles.begin(), troubles.end(), trouble) == troubles.end())
      troubles.push_back(std::move(trouble));
}

namespace {

const Finding* first_error(const std::vector<Finding>& findings) {
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [](const Finding& f) { return f.severity == Severity::error; });
  return found == findings.end() ? nullptr : &*found;
}

// Why a file is not one of its root; empty where it is.
std::string why_outside(const fs::path& file, const fs::path& root) {
  std::error_code error;
  (void)fs::weakly_canonical(file, error);
  if (error) return fmt::format("cannot be reached: {}", error.message());
  return lies_in(file, root) ? "" : fmt::format("leads out of the root {}", root.string());
}

// Never green where a check was asked for and not made.
void load_house_schema(Root& root, std::vector<std::string>& troubles, const File_reader& reader) {
  const fs::path path = root.house_schema_path();
  const auto complain = [&](std::string_view why) {
    troubles.push_back(fmt::format("{}: `house_schema` {}", path.string(), why));
  };
  std::error_code error;
  const fs::file_status there = fs::status(path, error);
  if (there.type() == fs::file_type::not_found) return complain("names it, but it is not there");
  if (const std::string why = why_outside(path, root.folder); !why.empty()) return complain(why);
  std::string why;
  const auto bytes = reader(path.string(), why);
  if (!bytes) return complain(fmt::format("names it, but it cannot be read: {}", why));
  House_schema house = read_house_schema(path.string(), *bytes);
  if (!house.problem.empty())
    troubles.push_back(
        fmt::format("{}; this corpus cannot be checked against its house schema", house.problem));
  else
    root.house_schema = std::move(house);
}

std::unique_ptr<Root> load_root(const fs::path& folder, std::vector<std::string>& troubles,
                                const File_reader& reader) {
  auto root = std::make_unique<Root>();
  root->folder = folder;
  const std::string path = (folder / corpus_file).lexically_normal().string();
  std::string why;
  const auto bytes = reader(path, why);
  if (!bytes) {
    troubles.push_back(fmt::format("{}: cannot be read: {}", path, why));
    return root;
  }
  root->read = read_json(path, *bytes);
  const Corpus* corpus = root->read.document.corpus();
  const Finding* first = first_error(root->read.findings);
  if (corpus == nullptr || first != nullptr) {
    troubles.push_back(
        first ? fmt::format("{}:{}:{}: the policy and the parts of this corpus cannot be used before this "
                            "error is mended; linting the file says more",
                            path, first->region.first.line, first->region.first.column)
              : fmt::format("{}: is no document of kind `corpus`", path));
    return root;
  }
  root->corpus = corpus;
  if (std::string problem = ruleset_problem(*corpus); !problem.empty())
    troubles.push_back(fmt::format("{}: {}", path, problem));
  if (corpus->house_schema) load_house_schema(*root, troubles, reader);
  for (const Text name : part_folders(corpus)) {
    const fs::path part_folder = (folder / name).lexically_normal();
    std::error_code error;
    if (!fs::exists(part_folder, error)) {
      if (corpus->part_paths)
        root->parts.add_unread(
            fmt::format("{}: `part_paths` names it, but it is not there", part_folder.string()));
      continue;
    }
    if (const std::string outside = why_outside(part_folder, folder); !outside.empty()) {
      root->parts.add_unread(fmt::format("{}: `part_paths` {}", part_folder.string(), outside));
      continue;
    }
    std::vector<std::string> unread;
    const std::vector<std::string> files = documents_below(part_folder, unread);
    for (std::string& trouble : unread) root->parts.add_unread(std::move(trouble));
    for (const std::string& file : files) {
      if (!file.ends_with(end_of_part)) continue;
      if (const std::string outside = why_outside(file, folder); !outside.empty()) {
        root->parts.add_unread(fmt::format("{}: {}", file, outside));
        continue;
      }
      const auto part_bytes = reader(file, why);
      if (!part_bytes) {
        root->parts.add_unread(fmt::format("{}: cannot be read: {}", file, why));
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
  root->parts.redirect(redirects_of(corpus->redirects.parts));
  return root;
}

}

std::string hash_of(std::initializer_list<std::string_view> texts) {
  Sha256 hash;
  for (const std::string_view text : texts) {
    hash.add(fmt::format("{}:", text.size()));
    hash.add(text);
  }
  return hash.digits();
}

std::string hash_of_corpus(const Root& root) {
  const Document& corpus = root.read.document;
  if (!root.house_schema) return hash_of({corpus.name(), corpus.text()});
  const Document& house = root.house_schema->document;
  return hash_of({corpus.name(), corpus.text(), house.name(), house.text()});
}

std::string hash_of_surroundings(const Root& root) {
  std::string all = hash_of_corpus(root);
  for (const auto& [id, part] : root.parts) all = hash_of({all, part.name(), part.text()});
  return all;
}

Roots::Roots(const std::optional<std::string>& fixed, std::vector<std::string>& troubles, File_reader reader)
    : Roots(fixed, troubles, troubles, std::move(reader)) {}

Roots::Roots(const std::optional<std::string>& fixed, std::vector<std::string>& troubles,
             std::vector<std::string>& of_parts, File_reader reader)
    : troubles_(troubles), of_parts_(of_parts), reader_(std::move(reader)) {
  if (!reader_) reader_ = [](const std::string& path, std::string& why) { return read_file(path, why); };
  if (fixed) fixed_ = fs::path(*fixed);
}

const Root* Roots::of(const std::string& file) {
  const Root* root = of_folder(std::string_view(file).substr(0, file.rfind('/') + 1)); // npos + 1 is 0
  std::error_code error;
  if (root != nullptr || !fs::is_symlink(file, error)) return root;
  return of_folder((real_path(file).parent_path() / "").native()); // where the file is
}

const Root* Roots::of_folder(std::string_view folder) {
  const auto known = nearest_.find(folder);
  if (known != nearest_.end()) return known->second;
  const Root* root = fixed_ ? load(*fixed_, *fixed_) : nearest(folder);
  nearest_.emplace(folder, root);
  return root;
}

bool Roots::name_house_schema(const fs::path& file) const {
  const fs::path real = real_path(file);
  return std::any_of(loaded_.begin(), loaded_.end(), [&](const auto& one) {
    const Root& root = *one.second;
    return root.corpus != nullptr && root.corpus->house_schema && real_path(root.house_schema_path()) == real;
  });
}

bool Roots::lie_in(const std::vector<std::string>& folders) const {
  const auto lies_in_one = [&](const fs::path& path) {
    return std::any_of(folders.begin(), folders.end(),
                       [&](const std::string& folder) { return lies_in(path, folder); });
  };
  return std::all_of(loaded_.begin(), loaded_.end(),
                     [&](const auto& one) { return lies_in_one(one.first); }) &&
         std::all_of(nearest_.begin(), nearest_.end(),
                     [&](const auto& one) { return one.second != nullptr || lies_in_one(one.first); });
}

const Root* Roots::nearest(const fs::path& to) {
  std::error_code error;
  const fs::path here = fs::current_path(error);
  const auto at_or_above = [&](fs::path folder) -> const Root* {
    for (;; folder = folder.parent_path()) {
      // One that is a broken link is there, too: reading it says so.
      if (fs::exists(fs::symlink_status(folder / corpus_file, error)))
        // Shown as the file was given: a relative path in what is printed does not depend on the machine.
        return load(folder, to.is_absolute() || here.empty() ? folder : folder.lexically_relative(here));
      if (folder == folder.root_path() || folder.empty()) return nullptr;
    }
  };
  const fs::path given = here / to / corpus_file;
  const Root* root = at_or_above(given.lexically_normal().parent_path());
  return root != nullptr ? root : at_or_above(real_path(given).parent_path());
}

const Root* Roots::load(const fs::path& folder, const fs::path& shown) {
  auto& root = loaded_[real_path(folder)]; // one corpus, however it is spelt
  if (!root) {
    root = load_root(shown, troubles_, reader_);
    add_others(of_parts_, root->parts.unread());
  }
  return root.get();
}

}
