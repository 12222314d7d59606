#include "corpus/files.h"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>
#include <set>

#include <fmt/format.h>

#include "ohmlore/corpus.h"

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

static bool is_document_name(const fs::path& name, std::string_view extension) {
  const std::string stem = name.stem().string();
  return name.extension() == extension &&
         (stem.ends_with(".profile") || stem.ends_with(".part") || stem == "corpus");
}

std::vector<std::string> documents_below(const fs::path& folder, std::vector<std::string>& troubles,
                                         std::string_view extension) {
  std::vector<std::string> found;
  std::error_code error;
  fs::recursive_directory_iterator at(folder, error), end;
  while (!error && at != end) {
    const std::string name = at->path().filename().string();
    const fs::path path = folder == "." ? at->path().lexically_relative(folder) : at->path();
    std::error_code ignored;
    if (name.starts_with('.')) {
      if (at->is_directory(ignored)) at.disable_recursion_pending();
    } else if (is_document_name(name, extension) && !at->is_directory(ignored)) {
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
    const fs::path real = file == "-" ? fs::path(file) : fs::weakly_canonical(file, error);
    if (known.insert(error ? fs::path(file) : real).second) once.push_back(std::move(file));
  }
  return once;
}

}
