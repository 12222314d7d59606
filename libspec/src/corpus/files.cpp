#include "corpus/files.h"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <memory>
#include <new>
#include <unordered_map>
#include <unordered_set>
#include <utility>

#include <sys/stat.h>

#include <fmt/format.h>

#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"
#include "text/small_letters.h"

namespace ohmlore {
namespace fs = std::filesystem;

// Findings show lines of what they are about: a link must not have them show what is no document.
static bool links_to_no_document(const fs::path& link) {
  std::error_code error;
  for (const std::string_view extension : {".json", ".xml"})
    if (is_document_name(link, extension))
      return fs::exists(link, error) && !is_document_name(real_path(link), extension);
  return false;
}

std::optional<std::string> read_file(const std::string& path, std::string& why, std::size_t most) {
  struct stat about;
  bool known = ::lstat(path.c_str(), &about) == 0; // opening says why not
  if (known && S_ISLNK(about.st_mode)) {
    if (links_to_no_document(path)) {
      why = "it is a link to what is not named as a document; put the file itself there";
      return std::nullopt;
    }
    known = ::stat(path.c_str(), &about) == 0;
  }
  if (known && S_ISDIR(about.st_mode)) {
    why = "it is a folder";
    return std::nullopt;
  }
  if (known && !S_ISREG(about.st_mode)) {
    why = "it is no plain file; what a pipe holds is read as -";
    return std::nullopt;
  }
  const auto close = [](std::FILE* file) { std::fclose(file); };
  errno = 0;
  const std::unique_ptr<std::FILE, decltype(close)> file(std::fopen(path.c_str(), "rb"), close);
  if (!file) {
    why = std::strerror(errno);
    return std::nullopt;
  }
  std::setvbuf(file.get(), nullptr, _IONBF, 0); // straight into the bytes
  std::string bytes;
  // One byte more than there should be, so that the first read sees the end; a file may grow meanwhile.
  constexpr std::size_t more = 1 << 16;
  std::size_t size = 0, room = std::min(static_cast<std::size_t>(known ? about.st_size : 0), most) + 1;
  for (bool full = true; full && size <= most; room = more) {
    try {
      bytes.resize(size + room);
    } catch (const std::bad_alloc&) {
      why = "there is not enough memory to read it whole";
      return std::nullopt;
    }
    const std::size_t n = std::fread(bytes.data() + size, 1, room, file.get());
    full = n == room;
    size += n;
  }
  bytes.resize(size);
  if (std::ferror(file.get()) != 0) {
    why = std::strerror(errno);
    return std::nullopt;
  }
  return bytes;
}

std::optional<std::string> read_document_file(const std::string& path, std::string& why) {
  auto bytes = read_file(path, why);
  std::error_code error;
  if (!bytes)
    for (const std::string_view end : {end_of_profile, end_of_part})
      if (const std::string whole = fmt::format("{}{}", path, end); fs::is_regular_file(whole, error))
        why += fmt::format("; did you mean {}?", whole);
  return bytes;
}

bool is_document_name(const fs::path& file, std::string_view extension) {
  std::string_view name = file.native();
  name.remove_prefix(name.rfind('/') + 1); // npos + 1 is 0
  if (!name.ends_with(extension)) return false;
  name.remove_suffix(extension.size());
  return name.ends_with(".profile") || name.ends_with(".part") || name == "corpus";
}

fs::path real_path(const fs::path& path) {
  std::error_code error;
  // What is not there yet stays relative, unless it was made absolute; ".." behind a link is its target's.
  fs::path absolute = fs::absolute(path, error);
  // A link whose target is not there yet counts as not there itself: it is followed by hand.
  for (int links = 0; links < 40 && fs::is_symlink(absolute, error) && !fs::exists(absolute, error); ++links)
    absolute = absolute.parent_path() / fs::read_symlink(absolute, error);
  const fs::path real = fs::weakly_canonical(absolute, error);
  return error ? absolute.lexically_normal() : real;
}

bool is_place_of_document(const fs::path& file, std::string_view extension) {
  return is_document_name(file, extension) || is_document_name(real_path(file), extension);
}

void each_document_below(const fs::path& folder, std::vector<std::string>& troubles,
                         std::string_view extension, const std::function<void(const std::string&)>& take) {
  std::vector<std::pair<std::string, fs::directory_entry>> entries;
  std::error_code error;
  for (fs::directory_iterator at(folder, error), end; !error && at != end; at.increment(error))
    if (std::string name = at->path().filename().string(); !name.starts_with('.'))
      entries.emplace_back(std::move(name), *at);
  if (error) troubles.push_back(fmt::format("{}: cannot be searched: {}", folder.string(), error.message()));
  std::sort(entries.begin(), entries.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  for (const auto& [name, entry] : entries) {
    const fs::path path = folder == "." ? fs::path(name) : entry.path();
    std::error_code ignored;
    // What an entry knows of itself it need not ask again.
    if (entry.is_directory(ignored)) {
      if (!entry.is_symlink(ignored)) each_document_below(path, troubles, extension, take);
    } else if (is_document_name(name, extension)) {
      // A link that leads to no document is one that cannot be read: kept, so that reading it says so.
      if (!entry.is_regular_file(ignored) && entry.exists(ignored))
        troubles.push_back(fmt::format("{}: is no plain file", path.string()));
      else
        take(path.string());
    } else if (is_document_name(small_letters(name), extension)) {
      troubles.push_back(fmt::format("{0}: is not read: documents are named *.profile{1}, *.part{1} and "
                                     "corpus{1}, in small letters; rename it",
                                     path.string(), extension));
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

std::string Real_names::of(const std::string& file) {
  const std::size_t behind_folder = file.rfind('/') + 1; // npos + 1 is 0
  const std::string_view name = std::string_view(file).substr(behind_folder);
  std::error_code error;
  if (name.empty() || name == "." || name == ".." || fs::is_symlink(file, error))
    return real_path(file).string();
  const auto [known, is_new] = folders_.try_emplace(file.substr(0, behind_folder));
  if (is_new) known->second = (real_path(behind_folder == 0 ? "." : known->first) / "").string();
  return known->second + std::string(name);
}

std::vector<std::string> files_of(const std::vector<std::string>& paths, std::vector<std::string>& troubles,
                                  std::string_view extension) {
  std::vector<std::string> files;
  if (paths.empty()) troubles.emplace_back(no_path_named);
  for (const std::string& path : paths) {
    std::error_code error;
    if (path != "-" && fs::is_directory(path, error)) {
      const std::size_t troubles_before = troubles.size();
      std::vector<std::string> below = documents_below(path, troubles, extension);
      if (below.empty() && troubles.size() == troubles_before)
        troubles.push_back(fmt::format("{0}: holds no *.profile{1}, no *.part{1} and no corpus{1}{2}", path,
                                       extension, extension == ".json" ? "; `ohmlore new` begins one" : ""));
      files.insert(files.end(), below.begin(), below.end());
    } else {
      files.push_back(path);
    }
  }
  // A file named twice is read once, however it is spelt.
  std::vector<std::string> once;
  once.reserve(files.size());
  Real_names real;
  std::unordered_set<std::string> known;
  for (std::string& file : files) {
    if (file == name_of_standard_input) file = "./" + file;
    if (known.insert(file == "-" ? file : real.of(file)).second) once.push_back(std::move(file));
  }
  return once;
}

}
