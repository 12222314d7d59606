// Seeded defects: mistakes of many kinds put into files of the corpus, one at a time. Each must be found by
// its rule, at its line. The defects are data, tests/property/defects/<family>.json: a list of
//
//   { "rule": "band-inverted", "file": "profiles/…", "edits": [EDIT…], "found_at": "/components/…" }
//
// An edit is { "at": JSON Pointer, "set": value }, { "at", "rename": key }, { "at", "remove": true },
// { "at": pointer of an object or list, "add": { members } or [items] }, or on the text { "replace": text,
// "with": text } (the text must occur exactly once) or { "append_spaces": number }. An edit with "in" goes to
// that file of the corpus instead. `found_at` is the pointer of the finding; for text edits `line_of` may
// stand in its place: a text in the edited document, whose line is meant. With "today" waivers are judged on
// that day, with "house_schema" profiles by that schema too.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidjson/document.h>
#include <rapidjson/error/en.h>
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <optional>
#include <set>

#include "ohmlore/corpus.h"
#include "ohmlore/house_schema.h"
#include "ohmlore/report.h"
#include "support/lint_all.h"

namespace fs = std::filesystem;
using namespace ohmlore;

namespace {

const fs::path corpus_folder = fs::path(OHMLORE_SOURCE_DIR) / "corpus";
const fs::path defects_folder = fs::path(OHMLORE_SOURCE_DIR) / "tests/property/defects";

using Files = std::map<std::string, std::string>; // path below the root, bytes

Files corpus_files() {
  Files files;
  for (const auto& entry : fs::recursive_directory_iterator(corpus_folder)) {
    if (!entry.is_regular_file() || entry.path().extension() != ".json") continue;
    std::ifstream in(entry.path(), std::ios::binary);
    files[fs::relative(entry.path(), corpus_folder).string()] = {std::istreambuf_iterator<char>(in), {}};
  }
  return files;
}

std::string json_of(const rapidjson::Value& value) {
  rapidjson::StringBuffer buffer;
  rapidjson::Writer<rapidjson::StringBuffer> writer(buffer);
  value.Accept(writer);
  return buffer.GetString();
}

// Applies one edit to a text, through the located tree. A problem with the edit itself is a test failure.
std::string edited(const std::string& text, const rapidjson::Value& edit) {
  const auto said = [&](const char* key) {
    return edit.HasMember(key) ? std::string(edit[key].GetString()) : std::string();
  };
  if (edit.HasMember("append_spaces")) return text + std::string(edit["append_spaces"].GetUint(), ' ');
  if (edit.HasMember("replace")) {
    const std::string what = said("replace");
    const std::size_t at = text.find(what);
    EXPECT_NE(at, std::string::npos) << "not found: " << what;
    EXPECT_EQ(text.find(what, at + 1), std::string::npos) << "found twice: " << what;
    std::string with = said("with");
    const std::string hex = said("with_hex");
    for (std::size_t i = 0; i + 1 < hex.size(); i += 2)
      with += static_cast<char>(std::stoi(hex.substr(i, 2), nullptr, 16));
    return at == std::string::npos ? text : text.substr(0, at) + with + text.substr(at + what.size());
  }
  const Document document = std::move(read_json("edited", text).document);
  const std::string pointer = said("at");
  const Node_id node = document.find(pointer);
  EXPECT_NE(node, 0u) << "no such place: " << pointer;
  if (node == 0) return text;
  const Node& value = document.node(node);
  const auto splice = [&](std::uint32_t begin, std::uint32_t end, const std::string& with) {
    return text.substr(0, begin) + with + text.substr(end);
  };
  if (edit.HasMember("set")) return splice(value.begin, value.end, json_of(edit["set"]));
  if (edit.HasMember("rename")) {
    const Node& key = document.node(document.key_of(node));
    return splice(key.begin, key.end, '"' + said("rename") + '"');
  }
  if (edit.HasMember("remove")) {
    std::uint32_t begin = document.key_of(node) ? document.node(document.key_of(node)).begin : value.begin;
    std::uint32_t end = value.end;
    const std::size_t after = text.find_first_not_of(" \t\r\n", end);
    if (text[after] == ',')
      end = static_cast<std::uint32_t>(after + 1);
    else if (const std::size_t before = text.find_last_not_of(" \t\r\n", begin - 1); text[before] == ',')
      begin = static_cast<std::uint32_t>(before);
    return splice(begin, end, "");
  }
  if (edit.HasMember("add")) {
    // In front of what is there, so that no line of it moves.
    std::string members = json_of(edit["add"]);
    members = members.substr(1, members.size() - 2);
    return splice(value.begin + 1, value.begin + 1, members + (value.count > 0 ? "," : ""));
  }
  ADD_FAILURE() << "an edit of no known form: " << json_of(edit);
  return text;
}

bool is_corpus_wide(const Rule& rule) { return rule.collect != nullptr; }

std::vector<Finding> lint_edited(const Files& files, const std::string& file, const Rule& rule,
                                 const std::string& today, const House_schema* house) {
  Parts parts;
  for (const auto& [path, bytes] : files) {
    if (!path.ends_with(".part.json")) continue;
    Read_result read = read_json(path, bytes);
    const bool broken = std::any_of(read.findings.begin(), read.findings.end(),
                                    [](const Finding& f) { return f.severity == Severity::error; });
    if (broken)
      parts.add_broken(fs::path(path).filename().string(), path);
    else
      parts.add(std::move(read.document));
  }
  const Read_result corpus = read_json("corpus.json", files.at("corpus.json"));
  if (corpus.document.corpus() != nullptr)
    parts.redirect(redirects_of(corpus.document.corpus()->redirects.parts));
  const Surroundings surroundings{corpus.document.corpus(), &parts, house};
  std::vector<Read_result> documents;
  for (const auto& [path, bytes] : files)
    if (path == file || is_corpus_wide(rule)) documents.push_back(read_json(path, bytes));
  test::All_linted all = test::lint_all(documents, surroundings);
  return settle(std::move(all.linted), std::move(all.judged), corpus.document.corpus(), {today});
}

// One line of the confusion table: what became of the defects of one rule.
struct Tally {
  int defects = 0;
  int found = 0;                   // by their rule, at their line
  int only_by_others = 0;          // by another rule, at least as a warning
  std::map<std::string, int> also; // what else is said, at least as a warning, that the whole file is free of
};

// The kind of the component that a pointer leads into: by itself, or through a test.
std::string component_kind(const Document& document, std::string pointer) {
  const auto text_at = [&](const std::string& at) {
    const Node_id node = document.find(at);
    return node == 0 ? std::string() : std::string(document.string(node));
  };
  if (pointer.starts_with("/component/")) return text_at("/component/kind");
  for (const char* list : {"/tests/", "/components/"}) {
    if (!pointer.starts_with(list)) continue;
    const std::string record = pointer.substr(0, pointer.find('/', std::string(list).size()));
    if (record.starts_with("/components/")) return text_at(record + "/kind");
    return text_at("/components/" + text_at(record + "/component") + "/kind");
  }
  return {};
}

}

TEST(Seeded_defects, are_each_found_by_their_rule_at_their_line) {
  const Files pristine = corpus_files();
  ASSERT_TRUE(pristine.count("corpus.json"));
  std::map<std::string, Tally> tallies;
  std::set<std::string> different, kinds;
  for (const auto& entry : fs::directory_iterator(defects_folder)) {
    if (entry.path().extension() != ".json") continue;
    std::ifstream in(entry.path(), std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    rapidjson::Document list;
    list.Parse<rapidjson::kParseValidateEncodingFlag>(text.data(), text.size());
    ASSERT_FALSE(list.HasParseError())
        << entry.path() << ": " << rapidjson::GetParseError_En(list.GetParseError()) << " at "
        << list.GetErrorOffset();
    for (const auto& defect : list.GetArray()) {
      const std::string slug = defect["rule"].GetString(), file = defect["file"].GetString();
      SCOPED_TRACE(fmt::format("{}: {}", entry.path().filename().string(), json_of(defect)));
      const Rule_entry* rule = find_rule(slug);
      ASSERT_NE(rule, nullptr) << slug << " is no rule";
      ASSERT_TRUE(pristine.count(file)) << file << " is no file of the corpus";
      Files files = pristine;
      for (const auto& edit : defect["edits"].GetArray()) {
        const std::string where = edit.HasMember("in") ? edit["in"].GetString() : file;
        ASSERT_TRUE(files.count(where)) << where << " is no file of the corpus";
        files[where] = edited(files[where], edit);
      }
      const std::string today = defect.HasMember("today") ? defect["today"].GetString() : "2026-01-01";
      std::optional<House_schema> house;
      if (defect.HasMember("house_schema"))
        house = read_house_schema("house.schema.json", json_of(defect["house_schema"]));
      const std::vector<Finding> findings =
          lint_edited(files, file, *rule->rule, today, house ? &*house : nullptr);
      EXPECT_TRUE(different.insert(slug + file + json_of(defect["edits"])).second) << "seeded twice";

      std::uint32_t line = 0;
      std::string pointer;
      const bool by_text = defect.HasMember("line_of");
      if (by_text) {
        line = position_of(files[file], files[file].find(defect["line_of"].GetString())).line;
      } else {
        pointer = defect["found_at"].GetString();
        const Document document = std::move(read_json(file, files[file]).document);
        kinds.insert(component_kind(document, pointer));
        Node_id node = document.find(pointer);
        EXPECT_NE(node, 0u) << pointer << " is nowhere in the edited document";
        if (node == 0) continue;
        if (document.key_of(node) != 0) node = document.key_of(node);
        line = position_of(files[file], document.node(node).begin).line;
      }
      const bool found = std::any_of(findings.begin(), findings.end(), [&](const Finding& f) {
        return f.rule == slug && f.file == file &&
               (by_text ? f.region.first.line == line : f.pointer == pointer) && f.region.first.line >= line;
      });
      std::string others;
      for (const Finding& f : findings)
        if (f.rule == slug)
          others += fmt::format("{} at {} line {}\n", f.file, f.pointer, f.region.first.line);
      EXPECT_TRUE(found) << "expected at line " << line << "; found were\n" << others;
      Tally& tally = tallies[slug];
      ++tally.defects;
      tally.found += found;
      std::set<std::string_view> also;
      for (const Finding& f : findings)
        if (f.rule != slug && f.severity >= Severity::warning) also.insert(f.rule);
      tally.only_by_others += !found && !also.empty();
      for (const std::string_view other : also) ++tally.also[std::string(other)];
    }
  }
  kinds.erase("");
  fmt::print("{:32} {:8} {:>6} {:>6} {:>6} {:>6}  {}\n", "rule", "", "seeded", "right", "others", "missed",
             "others that speak too");
  int defects = 0, found = 0;
  for (const Rule_entry& rule : all_rules()) {
    if (rule.slug.starts_with("baseline-"))
      continue; // of a baseline, not of a document: tests/rules has its cases
    const Tally tally = tallies[std::string(rule.slug)];
    EXPECT_GE(tally.defects, 3) << rule.slug << " has fewer than three seeded defects";
    std::string also;
    for (const auto& [other, count] : tally.also) also += fmt::format(" {} {},", count, other);
    if (!also.empty()) also.pop_back();
    fmt::print("{:32} {:8} {:6} {:6} {:6} {:6} {}\n", rule.slug, word_of(rule.rule->severity), tally.defects,
               tally.found, tally.only_by_others, tally.defects - tally.found - tally.only_by_others, also);
    defects += tally.defects;
    found += tally.found;
  }
  fmt::print("{} of {} seeded defects found by their rule at their line, in components of {} kinds\n", found,
             defects, kinds.size());
  EXPECT_GE(defects, 300);
  EXPECT_GE(kinds.size(), 5u);
}
