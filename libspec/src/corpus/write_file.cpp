// Files replaced whole: a crash, a full disk or a reader in between sees the old bytes or the new ones.
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <filesystem>

#include <fmt/format.h>

#include "corpus/files.h"
#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"

namespace ohmlore {
namespace fs = std::filesystem;
namespace {

bool write_all(int file, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = write(file, bytes.data(), bytes.size());
    if (n < 0 && errno != EINTR) return false;
    if (n > 0) bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

// Who interrupts a rewriting of many files leaves none half written beside its own: signals wait for the one
// in hand.
class Signals_wait {
public:
  Signals_wait() {
    sigset_t some;
    sigemptyset(&some);
    for (const int signal : {SIGHUP, SIGINT, SIGQUIT, SIGTERM}) sigaddset(&some, signal);
    pthread_sigmask(SIG_BLOCK, &some, &before_);
  }
  ~Signals_wait() { pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
  Signals_wait(const Signals_wait&) = delete;
  Signals_wait& operator=(const Signals_wait&) = delete;

private:
  sigset_t before_;
};

}

std::optional<Replacement> open_replacement(const std::string& path, std::string& why) {
  const auto failed = [&](int code) {
    why = std::strerror(code);
    return std::nullopt;
  };
  struct stat old {};
  const bool exists = stat(path.c_str(), &old) == 0;
  if (!exists && errno != ENOENT) return failed(errno);
  if (exists && !S_ISREG(old.st_mode)) {
    why = S_ISDIR(old.st_mode) ? "it is a folder" : "it is no plain file";
    return std::nullopt;
  }
  // Renaming asks nobody whether the file may be written; root may write whatever is marked.
  constexpr mode_t any_write = S_IWUSR | S_IWGRP | S_IWOTH;
  if (exists && ((old.st_mode & any_write) == 0 || access(path.c_str(), W_OK) != 0)) {
    why = "it is read-only";
    return std::nullopt;
  }
  std::error_code error;
  Replacement made;
  const fs::path real = exists ? fs::canonical(path, error) : real_path(path); // links stay
  if (error) return failed(error.value());
  made.path = real.string();

  constexpr int most_tries = 100; // names left behind by programs that were killed
  for (int i = 0; i < most_tries; ++i) {
    const std::string name = fmt::format(".{}.{}-{}", real.filename().string(), getpid(), i);
    made.beside = (real.parent_path() / name).string();
    made.file =
        open(made.beside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, exists ? S_IRUSR | S_IWUSR : 0666);
    if (made.file >= 0 || errno != EEXIST) break;
  }
  if (made.file < 0) return failed(errno);
  if (!exists) return made;
  // Another owner is kept where we may; who may not becomes the owner.
  if (old.st_uid != geteuid() || old.st_gid != getegid())
    static_cast<void>(fchown(made.file, old.st_uid, old.st_gid) == 0);
  if (fchmod(made.file, old.st_mode & 07777) == 0) return made;
  const int code = errno;
  close(made.file);
  unlink(made.beside.c_str());
  return failed(code);
}

bool write_file(const std::string& path, std::string_view bytes, std::string& why) {
  const Signals_wait until_it_is_whole;
  const std::optional<Replacement> made = open_replacement(path, why);
  if (!made) return false;
  bool good = write_all(made->file, bytes) && fsync(made->file) == 0;
  int code = errno;
  if (close(made->file) != 0 && good) {
    good = false;
    code = errno;
  }
  if (good && std::rename(made->beside.c_str(), made->path.c_str()) != 0) {
    good = false;
    code = errno;
  }
  if (good) return true;
  unlink(made->beside.c_str());
  why = std::strerror(code);
  return false;
}

bool rewrite_file(const std::string& path, std::string_view was, std::string_view becomes, std::string& why) {
  const auto now = read_file(path, why);
  if (!now) return false;
  if (*now == was) return write_file(path, becomes, why);
  why = "it changed in the meantime; run this again";
  return false;
}

}
