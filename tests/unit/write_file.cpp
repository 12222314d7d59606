#include <gtest/gtest.h>

#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <fstream>

#include "../support/files.h"
#include "corpus/files.h"
#include "ohmlore/corpus.h"

namespace fs = std::filesystem;
using namespace ohmlore;

namespace {

class Write_file : public testing::Test {
protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() / ("ohmlore-unit-write-file-" + std::to_string(getpid()));
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  fs::path make(const std::string& name, mode_t mode = 0644) {
    const fs::path path = folder_ / name;
    std::ofstream(path, std::ios::binary) << "old";
    chmod(path.c_str(), mode);
    return path;
  }
  static mode_t mode_of(const fs::path& path) {
    struct stat s {};
    stat(path.c_str(), &s);
    return s.st_mode & 07777;
  }
  std::size_t entries() const {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder_), fs::directory_iterator()));
  }
  fs::path folder_;
  std::string why_;
};

}

TEST_F(Write_file, replaces_the_bytes_and_keeps_the_mode) {
  for (const mode_t mode : {0644u, 0600u, 0664u, 0755u}) {
    const fs::path path = make("a.json", mode);
    EXPECT_TRUE(write_file(path, std::string_view("new\0er", 6), why_)) << why_;
    EXPECT_EQ(test::read_bytes(path), std::string("new\0er", 6));
    EXPECT_EQ(mode_of(path), mode);
  }
  EXPECT_EQ(entries(), 1u) << "nothing is left beside it";
}

TEST_F(Write_file, makes_a_new_file_as_any_program_would) {
  const mode_t mask = umask(027);
  EXPECT_TRUE(write_file(folder_ / "new.json", "new", why_)) << why_;
  umask(mask);
  EXPECT_EQ(mode_of(folder_ / "new.json"), 0640u);
  EXPECT_EQ(entries(), 1u);
}

TEST_F(Write_file, follows_a_link_and_leaves_it_a_link) {
  fs::create_directory(folder_ / "real");
  const fs::path real = make("real/a.json");
  fs::create_symlink("real/a.json", folder_ / "link.json");
  EXPECT_TRUE(write_file(folder_ / "link.json", "new", why_)) << why_;
  EXPECT_TRUE(fs::is_symlink(folder_ / "link.json"));
  EXPECT_EQ(test::read_bytes(real), "new");
  EXPECT_EQ(entries(), 2u);
}

TEST_F(Write_file, replaces_the_file_and_does_not_write_into_it) {
  const fs::path path = make("a.json");
  std::ifstream reader(path, std::ios::binary);
  EXPECT_TRUE(write_file(path, "new", why_)) << why_;
  EXPECT_EQ(std::string(std::istreambuf_iterator<char>(reader), {}), "old") << "who reads it reads one state";
}

TEST_F(Write_file, leaves_a_read_only_file_even_to_root) {
  const fs::path path = make("a.json", 0444);
  EXPECT_FALSE(write_file(path, "new", why_));
  EXPECT_EQ(why_, "it is read-only");
  EXPECT_EQ(test::read_bytes(path), "old");
  EXPECT_EQ(entries(), 1u);
}

// As on a disk that is full: no byte of the old file is lost, and nothing is left beside it.
TEST_F(Write_file, keeps_the_old_bytes_where_the_new_ones_have_no_room) {
  const fs::path path = make("a.json");
  rlimit before{};
  ASSERT_EQ(getrlimit(RLIMIT_FSIZE, &before), 0);
  const auto handler = std::signal(SIGXFSZ, SIG_IGN);
  const rlimit small{3, before.rlim_max};
  ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &small), 0);
  const bool good = write_file(path, "newer", why_); // its first three bytes have room
  ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &before), 0);
  std::signal(SIGXFSZ, handler);
  EXPECT_FALSE(good);
  EXPECT_EQ(why_, "File too large");
  EXPECT_EQ(test::read_bytes(path), "old");
  EXPECT_EQ(entries(), 1u);
}

// As of who interrupts `normalise --write` over a corpus: in its folder nobody looks for half a file.
TEST_F(Write_file, a_signal_waits_until_the_file_in_hand_is_whole) {
  const fs::path path = make("a.json");
  const std::string large(1 << 22, 'x'); // long enough to be met in the middle
  for (const int sent : {SIGHUP, SIGINT, SIGQUIT, SIGTERM})
    for (int time = 0; time < 5; ++time) {
      const auto before = std::signal(sent, SIG_DFL); // who runs this may ignore it, as nohup does
      const pid_t writer = fork();
      ASSERT_GE(writer, 0);
      if (writer == 0) {
        const rlimit no_core{};
        setrlimit(RLIMIT_CORE, &no_core);
        while (write_file(path, large, why_)) {
        }
        _exit(1);
      }
      std::signal(sent, before);
      usleep(static_cast<useconds_t>(2000 * (time + 1)));
      kill(writer, sent);
      int status = 0;
      ASSERT_EQ(waitpid(writer, &status, 0), writer);
      EXPECT_TRUE(WIFSIGNALED(status) && WTERMSIG(status) == sent) << "it is obeyed, though later";
      const std::string left = test::read_bytes(path);
      EXPECT_TRUE(left == "old" || left == large);
      EXPECT_EQ(entries(), 1u);
    }
}

TEST_F(Write_file, keeps_the_owner_where_it_may) {
  if (geteuid() != 0) GTEST_SKIP() << "only root may give files to others";
  const fs::path path = make("a.json", 0640);
  ASSERT_EQ(chown(path.c_str(), 1, 2), 0);
  EXPECT_TRUE(write_file(path, "new", why_)) << why_;
  struct stat s {};
  stat(path.c_str(), &s);
  EXPECT_EQ(s.st_uid, 1u);
  EXPECT_EQ(s.st_gid, 2u);
  EXPECT_EQ(mode_of(path), 0640u);
}

// An editor may save the file while it is worked on.
TEST_F(Write_file, what_changed_since_it_was_read_is_not_rewritten) {
  const fs::path path = make("a.json");
  EXPECT_FALSE(rewrite_file(path, "older", "new", why_));
  EXPECT_EQ(why_, "it changed in the meantime; run this again");
  EXPECT_EQ(test::read_bytes(path), "old");
  EXPECT_TRUE(rewrite_file(path, "old", "new", why_)) << why_;
  EXPECT_EQ(test::read_bytes(path), "new");
  fs::remove(path);
  EXPECT_FALSE(rewrite_file(path, "new", "newer", why_));
  EXPECT_EQ(why_, "No such file or directory");
  EXPECT_EQ(entries(), 0u);
}

TEST_F(Write_file, says_why_where_it_cannot) {
  EXPECT_FALSE(write_file(folder_, "new", why_));
  EXPECT_EQ(why_, "it is a folder");
  EXPECT_FALSE(write_file(folder_ / "missing" / "a.json", "new", why_));
  EXPECT_EQ(why_, "No such file or directory");
  make("a.json");
  EXPECT_FALSE(write_file(folder_ / "a.json" / "b.json", "new", why_));
  EXPECT_EQ(why_, "Not a directory");
  fs::create_symlink("round.json", folder_ / "round.json");
  EXPECT_FALSE(write_file(folder_ / "round.json", "new", why_));
  EXPECT_EQ(why_, "Too many levels of symbolic links");
  EXPECT_TRUE(fs::is_symlink(folder_ / "round.json"));
}
