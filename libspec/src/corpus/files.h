// Which files a request names.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace ohmlore {

inline constexpr std::string_view corpus_file = "corpus.json";
inline constexpr std::string_view no_path_named = "no file and no folder is named: nothing was looked at";

/// All documents below a folder (*.profile, *.part and corpus with the extension), sorted by path; hidden
/// entries and links to folders are left out. A name that is one but for capital letters is trouble.
std::vector<std::string> documents_below(const std::filesystem::path& folder,
                                         std::vector<std::string>& troubles,
                                         std::string_view extension = ".json");

/// The same one by one, each folder's in the order of their names: without a list of all.
void each_document_below(const std::filesystem::path& folder, std::vector<std::string>& troubles,
                         std::string_view extension, const std::function<void(const std::string&)>& take);

/// The files that paths name (files, folders, "-"), each once however it is spelt.
std::vector<std::string> files_of(const std::vector<std::string>& paths, std::vector<std::string>& troubles,
                                  std::string_view extension = ".json");

/// As read_file, of what should be a document: where only its id was written, its file is offered.
std::optional<std::string> read_document_file(const std::string& path, std::string& why);

/// As real_path, of many names: each folder is asked once.
class Real_names {
public:
  std::string of(const std::string& file);

private:
  std::unordered_map<std::string, std::string> folders_;
};

/// True where `inner`, links followed, lies in `outer`.
bool lies_in(const std::filesystem::path& inner, const std::filesystem::path& outer);

/// A file that is made beside `path`, to be renamed to it once it is whole. Hidden, so that no search for
/// documents finds it.
struct Replacement {
  int file = -1; ///< open for writing
  std::string path, beside;
};
/// As write_file has it: links followed, mode kept. Empty where `path` may not be replaced: `why` says why.
std::optional<Replacement> open_replacement(const std::string& path, std::string& why);

/// Writes a file anew (see write_file), unless it no longer holds what was read of it.
bool rewrite_file(const std::string& path, std::string_view was, std::string_view becomes, std::string& why);

}
