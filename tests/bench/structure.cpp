// The structural check in memory: structure FOLDER SCHEMA. Prints nanoseconds a byte of RapidJSON's DOM, of
// the reader with all its structural checks, and of valijson with the published schema; each the best of
// several passes.
#include <fmt/format.h>
#include <rapidjson/document.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <functional>
#include <vector>

#include "ohmlore/document.h"
#include "ohmlore/schema_engine.h"
#include "support/files.h"

namespace fs = std::filesystem;

static double best(std::size_t bytes, int passes, const std::function<void()>& work) {
  double least = 1e300;
  for (int i = 0; i < passes; ++i) {
    const auto begin = std::chrono::steady_clock::now();
    work();
    const std::chrono::duration<double, std::nano> took = std::chrono::steady_clock::now() - begin;
    least = std::min(least, took.count() / static_cast<double>(bytes));
  }
  return least;
}

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  std::vector<std::string> texts;
  for (const auto& entry : fs::recursive_directory_iterator(argv[1]))
    if (entry.path().string().ends_with(".profile.json") && texts.size() < 500)
      texts.push_back(ohmlore::test::read_bytes(entry.path()));
  const auto schema = ohmlore::compile_schema(ohmlore::test::read_bytes(argv[2]));
  std::size_t bytes = 0, wrong = 0;
  for (const std::string& text : texts) bytes += text.size();
  if (texts.empty() || !schema) return 2;

  const double dom = best(bytes, 10, [&] {
    for (const std::string& text : texts) {
      rapidjson::Document document;
      document.Parse(text.data(), text.size());
      wrong += document.HasParseError();
    }
  });
  const double reader = best(bytes, 10, [&] {
    for (const std::string& text : texts) wrong += !ohmlore::read_json("profile", text).findings.empty();
  });
  const double valijson = best(bytes, 2, [&] {
    for (const std::string& text : texts) wrong += !ohmlore::check_schema(schema, text).refusals.empty();
  });
  fmt::print("{} {} {}\n", dom, reader, valijson);
  return wrong == 0 ? 0 : 2;
}
