// Upgrading, proven with steps between versions that never were: the format has no older version yet. What
// they do is invented.
#include "ohmlore/upgrade.h"

#include <gtest/gtest.h>

#include <sys/stat.h>
#include <unistd.h>

#include "../support/files.h"
#include "ohmlore/canonical_json.h"
#include "ohmlore/corpus.h"
#include "ohmlore/edit.h"

namespace fs = std::filesystem;
using namespace ohmlore;

namespace {

// Components had a `title`; the revision was a `version`.
void to_0_9(Tree_edits& edits, const Document& document) {
  edits.rename(document.member(Document::root, "version"), "revision");
  const Node_id components = document.member(Document::root, "components");
  if (components == 0) return;
  for (Node_id id = components + 1; id < document.node(components).next; id = document.node(id + 1).next)
    edits.rename(document.member(id + 1, "title"), "name");
}

// The maker stood beside the appliance, of which the weight was told.
void to_1_0(Tree_edits& edits, const Document& document) {
  const Node_id appliance = document.member(Document::root, "appliance");
  edits.move(document.member(Document::root, "maker"), appliance);
  edits.remove(document.member(appliance, "weight"));
  edits.add(appliance, "x_upgraded", "true");
}

constexpr Format_step steps[] = {
    {"ohmlore/0.7", "ohmlore/0.8"}, // only added
    {"ohmlore/0.8", "ohmlore/0.9", to_0_9},
    {"ohmlore/0.9", "ohmlore/1.0", to_1_0},
};

const fs::path folder = fs::path(OHMLORE_SOURCE_DIR) / "tests/unit/upgrade";
std::string older() { return test::read_bytes(folder / "older.profile.json"); }

std::string edited(std::string text, std::string_view what, std::string_view becomes) {
  const std::size_t at = text.find(what);
  EXPECT_NE(at, std::string::npos) << what;
  return text.replace(at, what.size(), becomes);
}

std::string current() {
  return test::read_bytes(fs::path(OHMLORE_SOURCE_DIR) / "tests/rules/base.profile.json");
}

// What changes of an object, as text.
template <class Change>
std::string changed(std::string_view json, Change change) {
  const Read_result read = read_json("a", json);
  const Document& document = read.document;
  Tree_edits edits(document);
  change(edits, [&](std::string_view pointer) { return document.find(pointer); });
  return apply_edits(json, edits.edits());
}

}

// ---- one document

TEST(Upgrade, goes_through_every_step_from_the_version_on) {
  const std::string expected = test::read_bytes(folder / "upgraded.profile.json");
  for (const char* version : {"0.8", "0.7"}) {
    const Upgraded upgraded = upgrade_text("older", edited(older(), "0.8", version), steps);
    EXPECT_EQ(upgraded.outcome, Upgrade_outcome::upgraded);
    EXPECT_EQ(upgraded.from, std::string("ohmlore/") + version);
    EXPECT_EQ(upgraded.text, expected);
    EXPECT_TRUE(upgraded.findings.empty());
  }
  const Upgraded again = upgrade_text("older", expected, steps);
  EXPECT_EQ(again.outcome, Upgrade_outcome::current);
  EXPECT_EQ(again.text, expected);
}

TEST(Upgrade, says_what_the_reader_has_against_the_outcome) {
  // A key that is there already stands twice.
  const Upgraded twice =
      upgrade_text("old.json", edited(older(), "\"models\"", "\"maker\": \"Other\", \"models\""), steps);
  EXPECT_EQ(twice.outcome, Upgrade_outcome::refused);
  EXPECT_EQ(twice.text, "");
  ASSERT_EQ(twice.findings.size(), 1u);
  EXPECT_EQ(twice.findings[0].rule, "key-duplicate");
  EXPECT_EQ(twice.findings[0].file, "old.json (as ohmlore/1.0)");
  EXPECT_EQ(twice.findings[0].pointer, "/appliance/maker");
  // A key that no version has.
  const Upgraded unknown = upgrade_text("old.json", edited(older(), "\"fuel\"", "\"fule\""), steps);
  EXPECT_EQ(unknown.outcome, Upgrade_outcome::refused);
  ASSERT_EQ(unknown.findings.size(), 1u);
  EXPECT_EQ(unknown.findings[0].pointer, "/appliance/fule");
}

TEST(Upgrade, leaves_what_is_not_older) {
  for (const auto& [tag, outcome] :
       {std::pair{"1.0", Upgrade_outcome::current}, std::pair{"1.1", Upgrade_outcome::newer_minor},
        std::pair{"1.99", Upgrade_outcome::newer_minor}}) {
    const std::string text = edited(current(), "1.0", tag);
    for (const auto known : {std::span<const Format_step>(steps), format_steps()}) {
      const Upgraded same = upgrade_text("a", text, known);
      EXPECT_EQ(same.outcome, outcome) << tag;
      EXPECT_EQ(same.text, text);
      EXPECT_TRUE(same.findings.empty());
    }
  }
  const Upgraded next = upgrade_text("a", edited(current(), "1.0", "2.0"), steps);
  EXPECT_EQ(next.outcome, Upgrade_outcome::newer_major);
  EXPECT_EQ(next.from, "ohmlore/2.0");
  EXPECT_EQ(next.text, "");
}

TEST(Upgrade, refuses_nothing_for_what_is_no_error) {
  const std::string text = "\xEF\xBB\xBF" + current(); // which the reader warns of
  ASSERT_EQ(read_json("a", text).findings.size(), 1u);
  const Upgraded same = upgrade_text("a", text);
  EXPECT_EQ(same.outcome, Upgrade_outcome::current);
  EXPECT_EQ(same.text, text);
  EXPECT_TRUE(same.findings.empty());
}

TEST(Upgrade, refuses_what_the_reader_refuses) {
  const auto rule = [](std::string_view text) {
    const Upgraded upgraded = upgrade_text("a", text, steps);
    EXPECT_EQ(upgraded.outcome, Upgrade_outcome::refused) << text;
    EXPECT_EQ(upgraded.text, "");
    return upgraded.findings.empty() ? std::string() : std::string(upgraded.findings[0].rule);
  };
  EXPECT_EQ(rule(""), "json-syntax");
  EXPECT_EQ(rule("{\"format\": \"ohmlore/0.8\","), "json-syntax");
  EXPECT_EQ(rule("[]"), "type-wrong");
  EXPECT_EQ(rule("7"), "type-wrong");
  EXPECT_EQ(rule("{}"), "key-missing");
  EXPECT_EQ(rule("{\"format\": 1}"), "key-missing");
  EXPECT_EQ(rule("{\"format\": \"ohmlore\"}"), "format-unsupported");
  EXPECT_EQ(rule("{\"format\": \"ohmlore/0.6\"}"), "format-unsupported");
  EXPECT_EQ(rule(edited(current(), "\"revision\": 1", "\"revision\": 0")), "number-out-of-limits");
}

TEST(Upgrade, does_not_judge_what_is_newer) {
  const std::string text = edited(edited(current(), "1.0", "1.7"), "combination_boiler", "fusion_boiler");
  const Upgraded same = upgrade_text("a", text);
  EXPECT_EQ(same.outcome, Upgrade_outcome::newer_minor);
  EXPECT_EQ(same.text, text);
  EXPECT_TRUE(same.findings.empty());
}

TEST(Upgrade, keeps_what_a_newer_minor_version_brings) {
  const std::string text = edited(edited(current(), "1.0", "1.7"), "\"revision\"",
                                  "\"novelty\": {\"b\": [1.50, null],\"a\":\"\\u0041\"}, \"revision\"");
  EXPECT_EQ(upgrade_text("a", text).text, text);
}

// ---- edits of the tree

TEST(Tree_edits, keep_commas_right) {
  using Find = const std::function<Node_id(std::string_view)>&;
  const std::string_view three = R"({"a": 1, "b" : [2] ,"c": 3})";
  const auto without = [&](std::initializer_list<const char*> keys) {
    return changed(three, [&](Tree_edits& edits, Find at) {
      for (const char* key : keys) edits.remove(at(key));
    });
  };
  EXPECT_EQ(without({"/a"}), R"({"b" : [2] ,"c": 3})");
  EXPECT_EQ(without({"/b"}), R"({"a": 1 ,"c": 3})");
  EXPECT_EQ(without({"/c"}), R"({"a": 1, "b" : [2]})");
  EXPECT_EQ(without({"/a", "/b"}), R"({"c": 3})");
  EXPECT_EQ(without({"/a", "/c"}), R"({"b" : [2]})");
  EXPECT_EQ(without({"/c", "/b"}), R"({"a": 1})");
  EXPECT_EQ(without({"/a", "/b", "/c"}), R"({})");
  EXPECT_EQ(without({"/d"}), three);
  EXPECT_EQ(changed(three, [](Tree_edits& edits, Find at) { edits.add(at(""), "d", "{}"); }),
            R"({"a": 1, "b" : [2] ,"c": 3, "d": {}})");
  EXPECT_EQ(changed("{ }", [](Tree_edits& edits, Find at) { edits.add(at(""), "d", "{}"); }),
            R"({ "d": {}})");
  EXPECT_EQ(changed(three,
                    [](Tree_edits& edits, Find at) {
                      for (const char* key : {"/a", "/b", "/c"}) edits.remove(at(key));
                      edits.add(at(""), "d", "4");
                      edits.add(at(""), "e", "5");
                    }),
            R"({"d": 4, "e": 5})");
}

TEST(Tree_edits, move_a_member_as_it_is_written) {
  using Find = const std::function<Node_id(std::string_view)>&;
  EXPECT_EQ(changed(R"({"a\u0062": [1.50,  2], "in": {"x": 1}, "z": 0})",
                    [](Tree_edits& edits, Find at) { edits.move(at("/ab"), at("/in")); }),
            R"({"in": {"x": 1, "a\u0062": [1.50,  2]}, "z": 0})");
  EXPECT_EQ(changed(R"({"in": {"x": 1}, "out": {}})",
                    [](Tree_edits& edits, Find at) { edits.move(at("/in/x"), at("/out")); }),
            R"({"in": {}, "out": {"x": 1}})");
  EXPECT_EQ(
      changed(R"({"in": {"x": 1}})", [](Tree_edits& edits, Find at) { edits.move(at("/in/x"), at("/out")); }),
      R"({"in": {"x": 1}})")
      << "where there is no such object, nothing is lost";
  EXPECT_EQ(changed(R"({"a": 1, "b": {"c": 2}})",
                    [](Tree_edits& edits, Find at) {
                      edits.rename(at("/a"), "z");
                      edits.replace(at("/b/c"), "[3]");
                      edits.rename(at("/nowhere"), "z");
                      edits.replace(at("/nowhere"), "z");
                    }),
            R"({"z": 1, "b": {"c": [3]}})");
}

// ---- files

class Upgrade_paths : public testing::Test {
protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() / ("ohmlore-unit-upgrade-" + std::to_string(getpid()));
    fs::remove_all(folder_);
    fs::create_directories(folder_ / "deep");
    make("deep/older.profile.json", older());
    make("current.profile.json", current());
    make("newer.profile.json", edited(current(), "1.0", "1.3"));
  }
  void TearDown() override { fs::remove_all(folder_); }
  void make(const std::string& name, const std::string& text) {
    std::ofstream(folder_ / name, std::ios::binary) << text;
  }
  Upgrade_run run(Rewrite_mode mode) { return upgrade_paths({{folder_.string()}, "", mode}, steps); }
  std::string at(const std::string& name) const { return (folder_ / name).string(); }
  fs::path folder_;
};

TEST_F(Upgrade_paths, lists_and_then_writes_what_is_older) {
  const std::vector<std::string> changing = {at("deep/older.profile.json")};
  const Upgrade_run check = run(Rewrite_mode::check);
  EXPECT_EQ(check.changed, changing);
  EXPECT_EQ(test::read_bytes(folder_ / "deep/older.profile.json"), older());

  chmod(at("deep/older.profile.json").c_str(), 0640);
  const Upgrade_run write = run(Rewrite_mode::write);
  EXPECT_EQ(write.changed, changing);
  EXPECT_EQ(write.files_read, 3u);
  EXPECT_EQ(write.current, 1u);
  ASSERT_EQ(write.newer.size(), 1u);
  EXPECT_EQ(write.newer[0].name, at("newer.profile.json"));
  EXPECT_EQ(write.newer[0].version, "ohmlore/1.3");
  EXPECT_TRUE(write.findings.empty());
  EXPECT_TRUE(write.troubles.empty());
  EXPECT_EQ(test::read_bytes(folder_ / "deep/older.profile.json"),
            test::read_bytes(fs::path(OHMLORE_SOURCE_DIR) / "tests/unit/upgrade/upgraded.profile.json"));
  EXPECT_EQ(test::read_bytes(folder_ / "newer.profile.json"), edited(current(), "1.0", "1.3"));
  EXPECT_EQ(test::read_bytes(folder_ / "current.profile.json"), current());
  EXPECT_EQ(fs::status(folder_ / "deep/older.profile.json").permissions(), fs::perms(0640));

  const Upgrade_run again = run(Rewrite_mode::write);
  EXPECT_TRUE(again.changed.empty());
  EXPECT_EQ(again.current, 2u);
}

TEST_F(Upgrade_paths, leave_what_is_refused) {
  const std::string broken = edited(older(), "\"fuel\"", "\"fule\""), next = edited(current(), "1.0", "2.0");
  make("deep/older.profile.json", broken);
  make("next.profile.json", next);
  const Upgrade_run write = run(Rewrite_mode::write);
  EXPECT_TRUE(write.changed.empty());
  EXPECT_EQ(write.findings.size(), 1u);
  ASSERT_EQ(write.troubles.size(), 1u);
  EXPECT_EQ(
      write.troubles[0],
      at("next.profile.json") +
          ": cannot be upgraded: it is ohmlore/2.0, and this program knows ohmlore/1.0; in another major "
          "version every key may mean something else: take a newer ohmlore");
  EXPECT_EQ(test::read_bytes(folder_ / "deep/older.profile.json"), broken);
  EXPECT_EQ(test::read_bytes(folder_ / "next.profile.json"), next);
}

TEST_F(Upgrade_paths, print_one_document) {
  const Upgrade_run run = upgrade_paths({{at("deep/older.profile.json")}, "", Rewrite_mode::print}, steps);
  EXPECT_EQ(run.text,
            test::read_bytes(fs::path(OHMLORE_SOURCE_DIR) / "tests/unit/upgrade/upgraded.profile.json"));
  EXPECT_EQ(test::read_bytes(folder_ / "deep/older.profile.json"), older());
}

// The registry: each version that was ever released can be brought to this one.
TEST(Format_steps, lead_from_every_minor_version_to_this_one) {
  std::string tag = "ohmlore/1.0";
  for (const Format_step& step : format_steps()) {
    EXPECT_EQ(step.from, tag);
    tag = step.to;
  }
  EXPECT_EQ(tag, format_tag);
}
