#include "corpus/files.h"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>
#include <set>

#include <fmt/format.h>

#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"

namespace ohmlore {
namespace fs = std::filesystem;

std::optional<std::string> read_file(const std::string& path, std::string& why, std::size_t most) {
  const auto close = [](std::FILE* file) { std::fclose(file); };
  errno = 0;
  std::error_code error;
  if (fs::is_directory(path, error)) {
    why = "it is a folder";
    return std::nullopt;
  }
  if (fs::exists(path, error) && !fs::is_regular_file(path, error)) {
    why = "it is no plain file; what a pipe holds is read as -";
    return std::nullopt;
  }
  const std::unique_ptr<std::FILE, decltype(close)> file(std::fopen(path.c_str(), "rb"), close);
  if (!file) {
    why = std::strerror(errno);
    return std::nullopt;
  }
  std::string bytes;
  char block[1 << 16];
  for (std::size_t n; (n = std::fread(block, 1, sizeof block, file.get())) > 0 && bytes.size() <= most;)
    bytes.append(block, n);
  if (std::ferror(file.get()) != 0) {
    why = std::strerror(errno);
    return std::nullopt;
  }
  return bytes;
}

bool is_document_name(const fs::path& name, std::string_view extension) {
  const std::string stem = name.stem().string();
  return name.extension() == extension &&
         (stem.ends_with(".profile") || stem.ends_with(".part") || stem == "corpus");
}

fs::path real_path(const fs::path& path) {
  std::error_code error;
  // What is not there yet stays relative, unless it was made absolute.
  const fs::path absolute = fs::absolute(path, error).lexically_normal();
  const fs::path real = fs::weakly_canonical(absolute, error);
  return error ? absolute : real;
}

bool is_place_of_document(const fs::path& file) {
  return is_document_name(file, ".json") || is_document_name(real_path(file), ".json");
}

void each_document_below(const fs::path& folder, std::vector<std::string>& troubles,
                         std::string_view extension, const std::function<void(const std::string&)>& take) {
  std::vector<fs::path> entries;
  std::error_code error;
  for (fs::directory_iterator at(folder, error), end; !error && at != end; at.increment(error))
    if (!at->path().filename().string().starts_with('.')) entries.push_back(at->path().filename());
  if (error) troubles.push_back(fmt::format("{}: cannot be searched: {}", folder.string(), error.message()));
  std::sort(entries.begin(), entries.end());
  for (const fs::path& name : entries) {
    const fs::path path = folder == "." ? name : folder / name;
    std::error_code ignored;
    const fs::file_status link = fs::symlink_status(path, ignored);
    if (fs::is_directory(link)) {
      each_document_below(path, troubles, extension, take);
    } else if (is_document_name(name, extension) && !fs::is_directory(path, ignored)) {
      // A broken link is a document that cannot be read: kept, so that reading it says so.
      if (fs::is_regular_file(path, ignored) || !fs::exists(path, ignored))
        take(path.string());
      else
        troubles.push_back(fmt::format("{}: is no plain file", path.string()));
    }
  }
}

std::vector<std::string> documents_below(const fs::path& folder, std::vector<std::string>& troubles,
                                         std::string_view extension) {
  std::vector<std::string> found;
  each_document_below(folder, troubles, extension, [&](const std::string& file) { found.push_back(file); });
  std::sort(found.begin(), found.end());
  return found;
}

bool lies_in(const fs::path& inner, const fs::path& outer) {
  std::error_code error;
  const fs::path a = fs::weakly_canonical(inner, error);
  const fs::path b = error ? fs::path() : fs::weakly_canonical(outer, error);
  if (error) return false;
  return std::mismatch(b.begin(), b.end(), a.begin(), a.end()).first == b.end();
}

std::vector<std::string> files_of(const std::vector<std::string>& paths, std::vector<std::string>& troubles,
                                  std::string_view extension) {
  std::vector<std::string> files;
  for (const std::string& path : paths) {
    std::error_code error;
    if (path != "-" && fs::is_directory(path, error)) {
      std::vector<std::string> below = documents_below(path, troubles, extension);
      if (below.empty())
        troubles.push_back(
            fmt::format("{0}: holds no *.profile{1}, no *.part{1} and no corpus{1}", path, extension));
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
    if (file == name_of_standard_input) file = "./" + file;
    const fs::path real = file == "-" ? fs::path(file) : fs::weakly_canonical(file, error);
    if (known.insert(error ? fs::path(file) : real).second) once.push_back(std::move(file));
  }
  return once;
}

}
