// The JSON parsing suite of Nicolas Seriot (nst/JSONTestSuite, MIT): y_ is JSON, n_ is not, i_ may be either.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "../support/files.h"
#include "ohmlore/document.h"

namespace ohmlore {
namespace {

namespace fs = std::filesystem;

const fs::path suite = fs::path(OHMLORE_REFERENCE_DIR) / "data/json-parsing/test_parsing";

std::vector<fs::path> files(std::string_view prefix) {
  std::vector<fs::path> found;
  for (const auto& entry : fs::directory_iterator(suite))
    if (entry.path().filename().string().starts_with(prefix)) found.push_back(entry.path());
  std::sort(found.begin(), found.end());
  return found;
}

// Rules of family json: the text is not what RFC 8259 calls JSON.
std::vector<Finding> not_json(const fs::path& path) {
  std::vector<Finding> found = read_json(path.filename().string(), test::read_bytes(path)).findings;
  std::erase_if(found,
                [](const Finding& f) { return f.rule != "json-syntax" && f.rule != "utf8-malformed"; });
  return found;
}

class Json_suite : public testing::Test {
protected:
  void SetUp() override {
    if (!fs::exists(suite)) GTEST_SKIP() << suite << " is absent";
  }
};

TEST_F(Json_suite, accepts_what_is_json) {
  const auto all = files("y_");
  ASSERT_EQ(all.size(), 95u);
  for (const fs::path& path : all) {
    const auto found = not_json(path);
    EXPECT_TRUE(found.empty()) << path.filename() << ": " << found.front().message;
    EXPECT_TRUE(read_json("t", test::read_bytes(path)).document.whole()) << path.filename();
  }
}

TEST_F(Json_suite, refuses_what_is_not) {
  const auto all = files("n_");
  ASSERT_EQ(all.size(), 188u);
  for (const fs::path& path : all) {
    EXPECT_FALSE(not_json(path).empty()) << path.filename();
    const auto syntax = not_json(path);
    EXPECT_LE(
        std::count_if(syntax.begin(), syntax.end(), [](const Finding& f) { return f.rule == "json-syntax"; }),
        1)
        << path.filename();
  }
}

TEST_F(Json_suite, says_what_is_wrong_in_its_own_words) {
  for (const fs::path& path : files("n_"))
    for (const Finding& finding : not_json(path)) {
      EXPECT_GT(finding.message.size(), 15u) << path.filename();
      EXPECT_EQ(finding.message.find("nvalid"), std::string::npos)
          << path.filename() << ": " << finding.message;
      EXPECT_EQ(find_invalid_utf8(finding.message), std::string_view::npos) << path.filename();
      EXPECT_EQ(printable(finding.message), finding.message) << path.filename();
    }
}

TEST_F(Json_suite, comes_through_what_may_be_either) {
  const auto all = files("i_");
  ASSERT_EQ(all.size(), 35u);
  for (const fs::path& path : all) {
    const auto [document, findings] = read_json(path.filename().string(), test::read_bytes(path));
    EXPECT_FALSE(findings.empty()) << path.filename() << " is no document of ours, whatever else it is";
  }
}

}
}
