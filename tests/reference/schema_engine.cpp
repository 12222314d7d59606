// The schema engine against the official JSON Schema test suite, draft-07 (Debian package
// json-schema-test-suite): it gives no wrong verdict on any required test. Where it gives none at all, it
// says why.
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidjson/document.h>
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

#include "ohmlore/schema_engine.h"

namespace ohmlore {
namespace {

std::string text_of(const rapidjson::Value& value) {
  rapidjson::StringBuffer buffer;
  rapidjson::Writer<rapidjson::StringBuffer> writer(buffer);
  value.Accept(writer);
  return {buffer.GetString(), buffer.GetSize()};
}

TEST(Schema_engine, gives_no_wrong_verdict_in_the_official_suite) {
  const std::filesystem::path folder = "/usr/share/json-schema-test-suite/tests/draft7";
  if (!std::filesystem::exists(folder)) GTEST_SKIP() << "json-schema-test-suite is not installed";
  if (!has_schema_engine()) GTEST_SKIP() << "built without a schema engine";
  int right = 0;
  std::map<std::string, int> without_verdict;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() != ".json") continue; // optional/ is a folder
    std::ifstream in(entry.path(), std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    rapidjson::Document suite;
    suite.Parse(bytes.c_str());
    ASSERT_FALSE(suite.HasParseError()) << entry.path();
    for (const auto& group : suite.GetArray()) {
      const Schema schema = compile_schema(text_of(group["schema"]));
      for (const auto& test : group["tests"].GetArray()) {
        const Schema_verdict verdict = check_schema(schema, text_of(test["data"]));
        if (!verdict.problem.empty()) {
          ++without_verdict[verdict.problem];
          continue;
        }
        const bool accepted = verdict.refusals.empty();
        EXPECT_EQ(accepted, test["valid"].GetBool())
            << entry.path().filename() << ": " << group["description"].GetString() << ": "
            << test["description"].GetString();
        if (accepted == test["valid"].GetBool()) ++right;
      }
    }
  }
  int silent = 0;
  for (const auto& [why, count] : without_verdict) {
    silent += count;
    std::cout << count << " without verdict: " << why << '\n';
    EXPECT_NE(why.find("leads out of the schema"), std::string::npos) << why;
  }
  std::cout << right << " right, " << silent << " without verdict\n";
  EXPECT_EQ(right, 402); // of 423 that the package of Debian 12 has
  EXPECT_EQ(silent, 21);
}

}
}
