#include "ohmlore/diff.h"

#include <algorithm>
#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "corpus/files.h"
#include "corpus/roots.h"
#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"

namespace ohmlore {
namespace {

using Key = std::pair<Document_kind, std::string>;
using Files = std::map<Key, std::string>; // where each document stands

Key key_of(const Document& document) {
  if (const Profile* profile = document.profile()) return {Document_kind::profile, std::string(*profile->id)};
  if (const Part* part = document.part()) return {Document_kind::part, std::string(*part->id)};
  return {Document_kind::corpus, {}};
}

// A path of the command line, and what was learnt of it.
class Tree {
public:
  Tree(const std::string& path, const std::string& standard_input, Diff_run& run)
      : path_(path), run_(run), standard_input_(standard_input), roots_(std::nullopt, run.troubles),
        files_(files_of({path}, run.troubles)) {}

  // Empty, and the reason kept, where a document does not read without errors.
  std::optional<Document> read(const std::string& file) {
    std::string why;
    const bool from_input = file == "-";
    const auto bytes = from_input ? std::optional(standard_input_) : read_document_file(file, why);
    if (!bytes) {
      leave_out(file, nullptr);
      run_.troubles.push_back(fmt::format("{}: cannot be read: {}", file, why));
      return std::nullopt;
    }
    Read_result read = read_json(from_input ? std::string(name_of_standard_input) : file, *bytes);
    std::erase_if(read.findings, [](const Finding& finding) { return finding.severity != Severity::error; });
    if (read.findings.empty()) return std::move(read.document);
    leave_out(file, &read.document);
    run_.troubles.push_back(
        fmt::format("{}: not compared: it does not read without errors", read.document.name()));
    std::move(read.findings.begin(), read.findings.end(), std::back_inserter(run_.findings));
    return std::nullopt;
  }

  Surroundings around(const std::string& file) {
    const Root* root = roots_.of(file);
    return root ? root->surroundings() : Surroundings{};
  }

  // Whether that document may stand in a file that was left out: then nobody knows whether it is there. One
  // whose id cannot be read is what `others` have under its name, or else may be any.
  bool may_hold(const Key& key, const Files& others) const {
    return left_out_.contains(key) ||
           std::any_of(nameless_.begin(), nameless_.end(), [&](const Key& by_name) {
             return by_name.first == key.first && !others.contains(by_name);
           });
  }

  // Where each document stands.
  Files index() {
    Files found;
    for (const std::string& file : files_)
      if (const auto document = read(file)) {
        Key key = key_of(*document);
        if (key.first == Document_kind::corpus) key.second = place_of(file); // it has no id
        if (const auto [entry, first] = found.emplace(key, file); !first)
          run_.troubles.push_back(fmt::format("{}: not compared: {} holds \"{}\" too", file, entry->second,
                                              printable(entry->first.second)));
      }
    return found;
  }

private:
  std::string place_of(const std::string& file) const {
    return std::filesystem::path(file).lexically_relative(path_).string();
  }

  // By the name of its file, which is to be its id.
  Key key_by_name(const std::string& file) const {
    const std::string name = std::filesystem::path(file).filename().string();
    if (name.ends_with(end_of_profile)) return {Document_kind::profile, name.substr(0, name.find('.'))};
    if (name.ends_with(end_of_part)) return {Document_kind::part, name.substr(0, name.find('.'))};
    return {Document_kind::corpus, place_of(file)};
  }

  void leave_out(const std::string& file, const Document* read) {
    left_out_.insert(key_by_name(file));
    if (read == nullptr || key_of(*read).second.empty())
      nameless_.insert(key_by_name(file));
    else
      left_out_.insert(key_of(*read));
  }

  const std::string& path_;
  Diff_run& run_;
  const std::string& standard_input_;
  Roots roots_;
  std::vector<std::string> files_;
  std::set<Key> left_out_; // by id and by file name
  std::set<Key> nameless_; // by file name: those whose id cannot be read
};

void compare(Tree& older, const std::string& old_file, Tree& newer, const std::string& new_file,
             Diff_run& run) {
  const auto old = older.read(old_file), now = newer.read(new_file);
  if (!old || !now) return;
  if (key_of(*old).first != key_of(*now).first) {
    run.troubles.push_back(fmt::format("{} is a {} and {} a {}: they cannot be compared", old_file,
                                       word_of(key_of(*old).first), new_file, word_of(key_of(*now).first)));
    return;
  }
  ++run.compared;
  Document_diff diff = diff_documents(*old, older.around(old_file), *now, newer.around(new_file));
  if (!diff.changes.empty() || diff.older_revision != diff.newer_revision)
    run.documents.push_back(std::move(diff));
}

bool is_folder(const std::string& path) {
  std::error_code error;
  return std::filesystem::is_directory(path, error);
}

}

std::size_t Diff_run::count(Change_weight weight) const {
  std::size_t sum = 0;
  for (const Document_diff& diff : documents) sum += diff.count(weight);
  return sum;
}

Diff_run diff_paths(const std::string& older_path, const std::string& newer_path,
                    const std::string& standard_input) {
  Diff_run run;
  if (older_path == "-" && newer_path == "-") {
    run.troubles.push_back("standard input is one document, and can be compared with another; name a file");
    return run;
  }
  if (is_folder(older_path) != is_folder(newer_path)) {
    run.troubles.push_back(
        fmt::format("{} and {}: compare two files, or two folders", older_path, newer_path));
    return run;
  }
  Tree older(older_path, standard_input, run), newer(newer_path, standard_input, run);
  if (!is_folder(newer_path)) {
    compare(older, older_path, newer, newer_path, run);
    return run;
  }
  const Files old_files = older.index(), new_files = newer.index();
  std::map<Key, std::pair<std::string, std::string>> pairs;
  for (const auto& [key, file] : old_files) pairs[key].first = file;
  for (const auto& [key, file] : new_files) pairs[key].second = file;
  for (const auto& [key, files] : pairs) {
    const auto& [old_file, new_file] = files;
    if (!old_file.empty() && !new_file.empty()) {
      compare(older, old_file, newer, new_file, run);
    } else if (new_file.empty() && !newer.may_hold(key, old_files)) {
      if (const auto gone = older.read(old_file)) run.documents.push_back(removed_document(*gone));
    } else if (old_file.empty() && !older.may_hold(key, new_files)) {
      if (const auto come = newer.read(new_file)) run.documents.push_back(added_document(*come));
    }
  }
  return run;
}

}
