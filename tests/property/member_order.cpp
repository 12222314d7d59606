// The order of members means nothing (format.md, "Documents"): in whatever order they stand, the same is
// found, and a baseline knows it. All cases of the rules, shuffled.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <utility>

#include <fmt/format.h>

#include "ohmlore/lint.h"
#include "support/cases.h"
#include "support/chance.h"
#include "support/files.h"
#include "support/lint_all.h"

namespace fs = std::filesystem;
using namespace ohmlore;

namespace {

std::string shuffled(const Document& document, Node_id node, test::Chance& chance) {
  const Node& n = document.node(node);
  if (n.type != Node_type::object && n.type != Node_type::array) return std::string(document.written(node));
  std::vector<std::string> items;
  for (Node_id item = node + 1; item < n.next; item = document.node(item).next)
    if (document.node(item).key)
      items.push_back(fmt::format("{}: ", document.written(item)));
    else if (n.type == Node_type::object)
      items.back() += shuffled(document, item, chance);
    else
      items.push_back(shuffled(document, item, chance));
  if (n.type == Node_type::array) return fmt::format("[{}]", fmt::join(items, ",\n"));
  for (std::size_t i = items.size(); i > 1; --i)
    std::swap(items[i - 1], items[static_cast<std::size_t>(chance.whole(0, static_cast<int>(i) - 1))]);
  return fmt::format("{{{}}}", fmt::join(items, ",\n"));
}

// With each record under two more ids, one before its own and one behind it: more than two are equals then.
std::string tripled(std::string text) {
  for (const char* map : {"/sources", "/components", "/circuits", "/tests", "/faults"}) {
    const Read_result read = read_json("tripled", text);
    const Document& document = read.document;
    const Node_id node = document.whole() ? document.find(map) : 0;
    if (node == 0 || document.node(node).type != Node_type::object) continue;
    std::string more;
    for (Node_id key = node + 1; key < document.node(node).next; key = document.node(key + 1).next)
      more += fmt::format("\"0{0}\": {1}, \"{0}z\": {1}, ", document.string(key), document.written(key + 1));
    text.insert(document.node(node).begin + std::size_t{1}, more);
  }
  return text;
}

// The documents of a case: one file, or those of a folder.
std::vector<Read_result> read_case(const fs::path& path, bool is_tripled) {
  std::vector<fs::path> files = {path};
  if (fs::is_directory(path)) {
    files.clear();
    for (const auto& file : fs::recursive_directory_iterator(path))
      if (file.path().extension() == ".json") files.push_back(file.path());
    std::sort(files.begin(), files.end());
  }
  std::vector<Read_result> documents;
  for (const fs::path& file : files) {
    std::string text = test::read_bytes(file);
    documents.push_back(read_json(fs::relative(file, path.parent_path()).string(),
                                  is_tripled ? tripled(std::move(text)) : std::move(text)));
  }
  return documents;
}

std::vector<Finding_key> keys_of(const std::vector<Read_result>& documents) {
  Parts parts;
  const Corpus* corpus = nullptr;
  for (const Read_result& read : documents) {
    if (read.document.corpus() != nullptr) corpus = read.document.corpus();
    if (read.document.part() != nullptr)
      parts.add(read_json(read.document.name(), read.document.text()).document);
  }
  if (corpus != nullptr) parts.redirect(redirects_of(corpus->redirects.parts));
  test::All_linted all = test::lint_all(documents, {corpus, corpus != nullptr ? &parts : nullptr});
  std::vector<Finding_key> keys;
  for (const Finding& finding : settle(std::move(all.linted), std::move(all.judged), corpus, {}))
    keys.push_back(key_of(finding));
  std::sort(keys.begin(), keys.end());
  return keys;
}

std::string listed(const std::vector<Finding_key>& all, const std::vector<Finding_key>& others) {
  std::string text;
  std::vector<Finding_key> left;
  std::set_difference(all.begin(), all.end(), others.begin(), others.end(), std::back_inserter(left));
  for (const Finding_key& key : left)
    text += fmt::format("  {} in {} at {}: {}\n", key.rule, key.document, key.at, key.value);
  return text;
}

// Of two members with one key it matters which comes first, and so does it of more than are read.
bool goes_by_order(const Read_result& read) {
  return !read.document.whole() ||
         std::any_of(read.findings.begin(), read.findings.end(), [](const Finding& finding) {
           return finding.rule == "key-duplicate" || finding.rule == "count-out-of-limits";
         });
}

void expect_the_same_in_any_order(bool is_tripled, int shuffles) {
  std::vector<fs::path> paths;
  for (const auto& folder : fs::directory_iterator(fs::path(OHMLORE_SOURCE_DIR) / "tests/rules"))
    if (folder.is_directory())
      for (const auto& entry : fs::directory_iterator(folder))
        if (entry.is_directory() || entry.path().extension() == ".json") paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  test::Chance chance(1);
  std::size_t looked_at = 0;
  for (const fs::path& path : paths) {
    const std::vector<Read_result> written = read_case(path, is_tripled);
    if (std::any_of(written.begin(), written.end(), goes_by_order)) continue;
    ++looked_at;
    const std::vector<Finding_key> known = keys_of(written);
    for (int i = 0; i < shuffles; ++i) {
      std::vector<Read_result> other;
      for (const Read_result& read : written)
        other.push_back(read_json(read.document.name(), shuffled(read.document, Document::root, chance)));
      const std::vector<Finding_key> keys = keys_of(other);
      EXPECT_TRUE(keys == known) << path << "\nlost\n"
                                 << listed(known, keys) << "new\n"
                                 << listed(keys, known);
    }
  }
  EXPECT_GE(looked_at, 1000u);
}

}

TEST(Order_of_members, makes_no_finding_new) { expect_the_same_in_any_order(false, test::cases(40)); }

TEST(Order_of_members, makes_none_new_among_three_equals) {
  expect_the_same_in_any_order(true, test::cases(12));
}
