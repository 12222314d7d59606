// A value that cannot be read is a finding of the reader, and makes no rule speak that was silent before:
// what is not known need not be missing. Every value of every document of the corpus in turn becomes one of
// another type, and every text one that says nothing, where the reader does not take it.
#include <gtest/gtest.h>

#include <filesystem>
#include <set>

#include "ohmlore/lint.h"
#include "support/files.h"

namespace fs = std::filesystem;
using namespace ohmlore;

namespace {

const fs::path corpus_folder = fs::path(OHMLORE_SOURCE_DIR) / "corpus";

std::vector<fs::path> documents_named(const std::string& ending) {
  std::vector<fs::path> found;
  for (const auto& entry : fs::recursive_directory_iterator(corpus_folder))
    if (entry.path().string().ends_with(ending)) found.push_back(entry.path());
  std::sort(found.begin(), found.end());
  return found;
}

using Told = std::set<std::pair<std::string, std::string>>; // rule and place

Told told(const Read_result& read, const Surroundings& surroundings) {
  Told out;
  for (const Finding& finding : lint_document(read, surroundings).findings) {
    const Family family = rule_of(finding.rule).family;
    if (family != Family::json && family != Family::shape && family != Family::unit)
      out.emplace(finding.rule, finding.pointer);
  }
  return out;
}

}

TEST(Unread, values_make_no_rule_speak) {
  Parts parts;
  for (const fs::path& path : documents_named(".part.json"))
    parts.add(read_json(path.string(), test::read_bytes(path)).document);
  const auto root = read_json("corpus.json", test::read_bytes(corpus_folder / "corpus.json"));
  const Surroundings surroundings{root.document.corpus(), &parts};
  std::size_t at = 0, broken = 0;
  for (const fs::path& path : documents_named(".json")) {
    const std::string text = test::read_bytes(path);
    const Read_result good = read_json(path.string(), text);
    const Told before = told(good, surroundings);
    const auto nodes = good.document.nodes();
    for (Node_id id = Document::root + 1; id < nodes.size(); ++id) {
      if (nodes[id].key || at++ % OHMLORE_ONE_CASE_IN != 0) continue;
      for (const char* written : {"7", "\"?\""}) {
        std::string other = text;
        other.replace(nodes[id].begin, nodes[id].end - nodes[id].begin, written);
        const Read_result read = read_json(path.string(), other);
        if (read.document.complete()) continue; // it is read as something else
        ++broken;
        for (const auto& [rule, place] : told(read, surroundings))
          EXPECT_TRUE(before.contains({rule, place}))
              << path << ": without " << good.document.pointer(id) << " " << rule << " at " << place;
      }
    }
  }
  EXPECT_GT(broken, 100u);
}
