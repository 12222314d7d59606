// The corpora that documents belong to.
#pragma once

#include <filesystem>
#include <functional>
#include <initializer_list>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "ohmlore/house_schema.h"
#include "ohmlore/resolve.h"

namespace ohmlore {

struct Root {
  std::filesystem::path folder;
  Read_result read;
  Parts parts;
  const Corpus* corpus = nullptr; ///< null where the document has errors: then there is no root to speak of
  std::optional<House_schema> house_schema; ///< where the corpus names one that can be used
  Surroundings surroundings() const {
    return {corpus, corpus ? &parts : nullptr, house_schema ? &*house_schema : nullptr};
  }
  /// Of a corpus that names one.
  std::filesystem::path house_schema_path() const {
    return (folder / *corpus->house_schema).lexically_normal();
  }
};

/// Adds those that are not said yet: a part may be met as a document and as a part of its corpus.
void add_others(std::vector<std::string>& troubles, std::vector<std::string> more);

/// SHA-256 of texts that cannot run into each other.
std::string hash_of(std::initializer_list<std::string_view> texts);
/// Of what all documents of a root depend on: its corpus.json and its house schema, by name and content.
std::string hash_of_corpus(const Root& root);
/// The same with all parts.
std::string hash_of_surroundings(const Root& root);

/// The bytes of a file, as read_file gives them.
using File_reader = std::function<std::optional<std::string>(const std::string& path, std::string& why)>;

/// Roots by folder, each loaded once with its parts.
class Roots {
public:
  /// `fixed`: the root of every file; absent: the nearest folder at or above that holds a corpus.json. Why
  /// one cannot be used is added to `troubles`. `reader` is for those who know a file's text before it is
  /// saved; empty: as it is on disk.
  Roots(const std::optional<std::string>& fixed, std::vector<std::string>& troubles, File_reader reader = {});
  /// For a job, with which a file among the parts may have nothing to do: why one is not read is kept apart.
  Roots(const std::optional<std::string>& fixed, std::vector<std::string>& troubles,
        std::vector<std::string>& of_parts, File_reader reader = {});
  /// Null where there is none.
  const Root* of(const std::string& file);
  /// Of those loaded, whether one names this file, which need not be there.
  bool name_house_schema(const std::filesystem::path& file) const;
  /// Whether all that are loaded lie in one of these folders, and the files too that have none.
  bool lie_in(const std::vector<std::string>& folders) const;

private:
  const Root* of_folder(std::string_view folder);
  const Root* nearest(const std::filesystem::path& to);
  const Root* load(const std::filesystem::path& folder, const std::filesystem::path& shown);

  std::optional<std::filesystem::path> fixed_;
  std::map<std::filesystem::path, std::unique_ptr<Root>> loaded_;
  std::map<std::string, const Root*, std::less<>> nearest_; ///< by the folder of a file, or of its target
  std::vector<std::string>& troubles_;
  std::vector<std::string>& of_parts_;
  File_reader reader_;
};

}
