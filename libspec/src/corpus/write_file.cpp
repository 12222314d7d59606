// Files replaced whole: a crash, a full disk or a reader in between sees the old bytes or the new ones.
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

#include <fmt/format.h>

#include "corpus/files.h"
#include "ohmlore/corpus.h"

namespace ohmlore {
namespace fs = std::filesystem;
namespace {

// A new file that nobody else has, beside `path`; -1 and errno where there can be none. Hidden, so that no
// search for documents finds it.
int open_beside(const fs::path& path, mode_t mode, std::string& name) {
  constexpr int most_tries = 100; // names left behind by programs that were killed
  int file = -1;
  for (int i = 0; i < most_tries; ++i) {
    name = (path.parent_path() / fmt::format(".{}.{}-{}", path.filename().string(), getpid(), i)).string();
    file = open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
    if (file >= 0 || errno != EEXIST) break;
  }
  return file;
}

bool write_all(int file, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = write(file, bytes.data(), bytes.size());
    if (n < 0 && errno != EINTR) return false;
    if (n > 0) bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

}

bool write_file(const std::string& path, std::string_view bytes, std::string& why) {
  const auto failed = [&](int code) {
    why = std::strerror(code);
    return false;
  };
  struct stat old {};
  const bool exists = stat(path.c_str(), &old) == 0;
  if (!exists && errno != ENOENT) return failed(errno);
  if (exists && !S_ISREG(old.st_mode)) {
    why = "it is no plain file";
    return false;
  }
  // Renaming asks nobody whether the file may be written; root may write whatever is marked.
  constexpr mode_t any_write = S_IWUSR | S_IWGRP | S_IWOTH;
  if (exists && ((old.st_mode & any_write) == 0 || access(path.c_str(), W_OK) != 0)) {
    why = "it is read-only";
    return false;
  }
  std::error_code error;
  const fs::path real = exists ? fs::canonical(path, error) : fs::path(path); // links stay
  if (error) return failed(error.value());

  std::string beside;
  const int file = open_beside(real, exists ? S_IRUSR | S_IWUSR : 0666, beside);
  if (file < 0) return failed(errno);
  bool good = true;
  if (exists) {
    // Another owner is kept where we may; who may not becomes the owner.
    if (old.st_uid != geteuid() || old.st_gid != getegid())
      static_cast<void>(fchown(file, old.st_uid, old.st_gid) == 0);
    good = fchmod(file, old.st_mode & 07777) == 0;
  }
  good = good && write_all(file, bytes) && fsync(file) == 0;
  int code = errno;
  if (close(file) != 0 && good) {
    good = false;
    code = errno;
  }
  if (good && std::rename(beside.c_str(), real.c_str()) != 0) {
    good = false;
    code = errno;
  }
  if (good) return true;
  unlink(beside.c_str());
  return failed(code);
}

bool rewrite_file(const std::string& path, std::string_view was, std::string_view becomes, std::string& why) {
  const auto now = read_file(path, why);
  if (!now) return false;
  if (*now == was) return write_file(path, becomes, why);
  why = "it changed in the meantime; run this again";
  return false;
}

}
