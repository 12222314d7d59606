#include <gtest/gtest.h>

#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "../support/files.h"
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

TEST_F(Write_file, says_why_where_it_cannot) {
  EXPECT_FALSE(write_file(folder_, "new", why_));
  EXPECT_EQ(why_, "it is a folder");
  EXPECT_FALSE(write_file(folder_ / "missing" / "a.json", "new", why_));
  EXPECT_EQ(why_, "No such file or directory");
  make("a.json");
  EXPECT_FALSE(write_file(folder_ / "a.json" / "b.json", "new", why_));
  EXPECT_EQ(why_, "Not a directory");
}
