// Each rule against its cases and its page.
//
// tests/rules/<slug>/bad-*.json (or a folder bad-*/ with several files) must give exactly the text in
// bad-*.expected, with at least one finding of the rule; good-*.json must give nothing above a note, and
// nothing of the rule. OHMLORE_BLESS=1 in the environment writes the expected texts anew: read the difference
// before committing.
//
// A folder with a baseline.json is linted with that baseline.
//
// What cannot stand in a text file (bytes that are no UTF-8, control characters) or would be huge is written
// as a recipe, *.recipe in place of *.json: %XX is the byte with that hexadecimal number, %{N TEXT} is TEXT N
// times.
#include <unistd.h>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidjson/document.h>
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <set>
#include <sstream>

#include "../support/files.h"
#include "ohmlore/baseline.h"
#include "ohmlore/corpus.h"
#include "ohmlore/house_schema.h"
#include "ohmlore/report.h"
#include "support/lint_all.h"

namespace fs = std::filesystem;
using namespace ohmlore;

namespace {

const fs::path cases_folder = fs::path(OHMLORE_SOURCE_DIR) / "tests/rules";
const Lint_options options{"2026-01-01"};

std::string contents(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<fs::path> entries(const fs::path& folder, std::string_view prefix) {
  std::vector<fs::path> found;
  for (const auto& entry : fs::directory_iterator(folder)) {
    const std::string name = entry.path().filename().string();
    if (name.starts_with(prefix) && !name.ends_with(".expected")) found.push_back(entry.path());
  }
  std::sort(found.begin(), found.end());
  return found;
}

// Lints with the rule's folder as current folder, so that names in findings are short. What a recipe gives
// lies in a folder of its own meanwhile.
Lint_run lint_case(const fs::path& path) {
  fs::current_path(path.parent_path());
  Lint_request request;
  request.paths = {path.filename().string()};
  request.options = options;
  if (fs::exists(path / "baseline.json")) request.baseline = request.paths.front() + "/baseline.json";
  if (path.extension() != ".recipe") return lint_paths(request);

  const fs::path kitchen = fs::path(testing::TempDir()) / fmt::format("ohmlore_rule_cases_{}", getpid());
  fs::create_directories(kitchen);
  fs::current_path(kitchen);
  request.paths = {path.stem().string() + ".json"};
  std::ofstream(request.paths.front(), std::ios::binary) << test::cooked(contents(path));
  Lint_run run = lint_paths(request);
  fs::current_path(path.parent_path());
  fs::remove_all(kitchen);
  return run;
}

std::string text_of(const std::vector<Finding>& findings) {
  std::string text;
  for (const Finding& finding : findings) text += text_report(finding);
  return text;
}

bool has(const std::vector<Finding>& findings, std::string_view rule) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) { return f.rule == rule; });
}

// ---- pages

struct File {
  std::string name;
  std::string text;
};
using Example = std::vector<File>;

// The examples under a heading: each JSON block alone, and all that name a file ("```json name=X") together.
// "```json recipe" is a recipe.
std::vector<Example> examples_under(std::string_view page, std::string_view heading) {
  std::istringstream lines{std::string(page)};
  std::vector<Example> found;
  Example named;
  File file;
  bool here = false, inside = false, recipe = false;
  for (std::string line; std::getline(lines, line);) {
    if (!inside && line.starts_with("## ")) here = line == heading;
    if (here && !inside && line.starts_with("```json")) {
      inside = true;
      recipe = line == "```json recipe";
      const std::size_t name = line.find("name=");
      file = {name == std::string::npos ? "" : line.substr(name + 5), ""};
    } else if (inside && line.starts_with("```")) {
      inside = false;
      if (recipe) file.text = test::cooked(file.text);
      if (file.name.empty())
        found.push_back({{"example.json", file.text}});
      else
        named.push_back(file);
    } else if (inside) {
      file.text += line + '\n';
    }
  }
  if (!named.empty()) found.push_back(named);
  return found;
}

// A block that states no kind is part of a profile: the rest comes from base.profile.json.
std::string completed(const std::string& block) {
  rapidjson::Document members;
  members.Parse(block.data(), block.size());
  if (members.HasParseError() || !members.IsObject() || members.HasMember("kind") ||
      members.HasMember("format"))
    return block;
  rapidjson::Document base;
  const std::string base_text = contents(cases_folder / "base.profile.json");
  base.Parse(base_text.data(), base_text.size());
  std::for_each(members.MemberBegin(), members.MemberEnd(), [&base](const auto& member) {
    if (base.HasMember(member.name)) base.RemoveMember(member.name);
    base.AddMember(rapidjson::Value(member.name, base.GetAllocator()),
                   rapidjson::Value(member.value, base.GetAllocator()), base.GetAllocator());
  });
  rapidjson::StringBuffer buffer;
  rapidjson::Writer<rapidjson::StringBuffer> writer(buffer);
  base.Accept(writer);
  return buffer.GetString();
}

std::vector<Finding> lint_example(const Example& example) {
  std::vector<Read_result> documents;
  Parts parts;
  const Corpus* corpus = nullptr;
  std::optional<Baseline> baseline;
  std::optional<House_schema> house;
  for (const File& file : example) {
    if (file.name.ends_with(".schema.json")) {
      house = read_house_schema(file.name, file.text);
      EXPECT_EQ(house->problem, "");
      continue;
    }
    if (file.name == "baseline.json") {
      Baseline_read read = read_baseline(file.name, file.text);
      EXPECT_EQ(read.problems, std::vector<std::string>());
      baseline = std::move(read.baseline);
      continue;
    }
    documents.push_back(read_json(file.name, completed(file.text)));
    if (documents.back().document.part() != nullptr)
      parts.add(read_json(file.name, completed(file.text)).document);
  }
  for (const Read_result& read : documents)
    if (read.document.corpus() != nullptr) corpus = read.document.corpus();
  if (corpus != nullptr) parts.redirect(redirects_of(corpus->redirects.parts));
  const Surroundings surroundings{corpus, parts.size() > 0 || corpus != nullptr ? &parts : nullptr,
                                  house ? &*house : nullptr};
  test::All_linted all = test::lint_all(documents, surroundings);
  Looked_at looked_at;
  for (const Linted& one : all.linted) looked_at.documents[one.document] = {one.whole, one.all_rules_ran};
  std::vector<Finding> waived;
  std::vector<Finding> findings =
      settle(std::move(all.linted), std::move(all.judged), corpus, options, &waived);
  if (baseline)
    for (Finding& said : apply_baseline(*baseline, findings, waived, looked_at, options))
      findings.push_back(std::move(said));
  return findings;
}

}

TEST(Rules, have_a_case_that_must_be_found_and_one_that_must_not) {
  for (const Rule_entry& entry : all_rules()) {
    EXPECT_FALSE(entries(cases_folder / entry.slug, "bad").empty()) << entry.slug << " has no bad case";
    EXPECT_FALSE(entries(cases_folder / entry.slug, "good").empty()) << entry.slug << " has no good case";
  }
}

TEST(Rules, have_no_orphaned_files) {
  std::set<std::string> folders;
  for (const Rule_entry& entry : all_rules()) folders.insert(std::string(entry.slug));
  for (const auto& folder : fs::directory_iterator(cases_folder)) {
    if (!folder.is_directory()) continue;
    EXPECT_TRUE(folders.count(folder.path().filename().string())) << folder.path() << " belongs to no rule";
    for (const auto& file : fs::directory_iterator(folder.path())) {
      const fs::path& path = file.path();
      const std::string name = path.filename().string();
      EXPECT_TRUE(name.starts_with("bad") || name.starts_with("good")) << path << " is neither bad nor good";
      if (path.extension() != ".expected") continue;
      const std::string stem = path.stem().string();
      EXPECT_TRUE(fs::exists(folder.path() / (stem + ".json")) ||
                  fs::exists(folder.path() / (stem + ".recipe")) || fs::is_directory(folder.path() / stem))
          << path << " has no case";
    }
  }
}

TEST(Rules, find_their_bad_cases) {
  const bool bless = std::getenv("OHMLORE_BLESS") != nullptr;
  for (const Rule_entry& entry : all_rules())
    for (const fs::path& path : entries(cases_folder / entry.slug, "bad")) {
      SCOPED_TRACE(path.string());
      const Lint_run run = lint_case(path);
      EXPECT_TRUE(run.troubles.empty()) << run.troubles.front();
      EXPECT_TRUE(has(run.findings, entry.slug));
      const std::string text = text_of(run.findings);
      const fs::path expected = path.parent_path() / (path.stem().string() + ".expected");
      if (bless) std::ofstream(expected, std::ios::binary) << text;
      EXPECT_EQ(text, contents(expected));
    }
}

TEST(Rules, keep_silent_on_their_good_cases) {
  for (const Rule_entry& entry : all_rules())
    for (const fs::path& path : entries(cases_folder / entry.slug, "good")) {
      SCOPED_TRACE(path.string());
      const Lint_run run = lint_case(path);
      EXPECT_TRUE(run.troubles.empty()) << run.troubles.front();
      EXPECT_GT(run.files_read, 0u);
      for (const Finding& finding : run.findings)
        EXPECT_TRUE(finding.severity == Severity::note && finding.rule != entry.slug) << text_report(finding);
    }
}

TEST(Rules, have_pages_of_one_form) {
  for (const Rule_entry& entry : all_rules()) {
    SCOPED_TRACE(std::string(entry.slug));
    const std::string head =
        fmt::format("# {}\n\n{} · family {} · {}\n\n{}\n", entry.slug, word_of(entry.rule->severity),
                    name_of(entry.rule->family), life_of(*entry.rule), entry.rule->summary);
    EXPECT_TRUE(entry.page.starts_with(head)) << "the page must begin with\n" << head;
    std::size_t at = 0;
    for (const std::string_view heading : {"\n## Checks\n", "\n## Why it matters on the bench\n",
                                           "\n## Bad\n", "\n## Good\n", "\n## Exceptions\n"}) {
      at = entry.page.find(heading, at);
      EXPECT_NE(at, std::string_view::npos) << heading << "is missing, or out of order";
      if (at == std::string_view::npos) break;
    }
  }
}

TEST(Rules, have_a_life_that_adds_up) {
  for (const Rule_entry& entry : all_rules()) {
    SCOPED_TRACE(std::string(entry.slug));
    EXPECT_FALSE(entry.rule->goes_by_absence && entry.rule->severity == Severity::error);
    const Rule& rule = *entry.rule;
    EXPECT_LE(rule.since, current_ruleset);
    EXPECT_EQ(rule.status == Rule_status::deprecated, !rule.replaced_by.empty());
    if (rule.replaced_by.empty()) continue;
    const Rule_entry* successor = find_rule(rule.replaced_by);
    ASSERT_NE(successor, nullptr) << rule.replaced_by;
    EXPECT_EQ(successor->rule->status, Rule_status::stable);
    EXPECT_NE(entry.page.find(fmt::format("({}.md)", rule.replaced_by)), std::string_view::npos)
        << "the page must link to its successor";
  }
}

TEST(Rules, have_pages_whose_examples_hold) {
  for (const Rule_entry& entry : all_rules()) {
    SCOPED_TRACE(std::string(entry.slug));
    const auto bad = examples_under(entry.page, "## Bad");
    const auto good = examples_under(entry.page, "## Good");
    EXPECT_FALSE(bad.empty()) << "no JSON block under Bad";
    EXPECT_FALSE(good.empty()) << "no JSON block under Good";
    for (const Example& example : bad) {
      const std::vector<Finding> findings = lint_example(example);
      EXPECT_TRUE(has(findings, entry.slug)) << example.front().text.substr(0, 500) << text_of(findings);
    }
    for (const Example& example : good)
      for (const Finding& finding : lint_example(example))
        EXPECT_TRUE(finding.severity == Severity::note && finding.rule != entry.slug) << text_report(finding);
  }
}
