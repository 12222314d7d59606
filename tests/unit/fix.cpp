#include "ohmlore/fix.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>

#include "../support/files.h"

using namespace ohmlore;

namespace {

using Edits = std::vector<Edit>;

// A profile in which nothing is found but what the members add.
std::string profile(std::string_view members, std::string_view fuel = "natural_gas") {
  std::string out = R"({
  "format": "ohmlore/1.0",
  "kind": "profile",
  "id": "example",
  "revision": 1,
  "appliance": {
    "maker": "Orrinvale",
    "models": ["Larch 24 C"],
    "type": "combination_boiler",
    "fuel": "FUEL",
    "controller": { "part": "OV-4410" }
  },
  "safety": { "supplies": [{ "kind": "mains", "isolate_at": "fused spur beside the appliance" }] },
  "sources": { "notes": { "kind": "maker_document", "title": "Larch service notes" } },
  "source": { "from": "notes" }MEMBERS
}
)";
  out.replace(out.find("FUEL"), 4, fuel);
  return out.replace(out.find("MEMBERS"), 7, members);
}

// One connector with two pins, one component on them, and what else is given.
std::string component(std::string_view model, std::string_view members = "") {
  return profile(std::string(R"(,
  "connectors": {
    "X1": {
      "label": "X1", "ways": 2, "circuit": "selv",
      "pins": { "1": { "signal": "flow" }, "2": { "signal": "flow" } }
    }
  },
  "components": {
    "flow": { "kind": "ntc", "name": "Flow sensor", "between": ["X1.1", "X1.2"], "model": )") +
                 std::string(model) + " }\n  }" + std::string(members));
}

std::string table(std::string_view row) {
  return component(
      R"({ "kind": "table", "rows": [{ "at": "0 °C", "nominal": "32.6 kΩ", "tolerance": "5 %" }, )" +
      std::string(row) + "] }");
}

void expect_fixed(const std::string& bad, const std::string& good, std::size_t fixes = 1) {
  const Fixed fixed = fix_text("x.profile.json", bad);
  EXPECT_EQ(fixed.refusal, "");
  EXPECT_EQ(fixed.text, good);
  EXPECT_EQ(fixed.fixes, fixes);
  EXPECT_EQ(apply_edits(bad, fixed.edits), good);
  EXPECT_EQ(fix_text("x.profile.json", good).fixes, 0u) << "a second time";
}

void expect_left(const std::string& text, const Lint_options& options = {},
                 const Surroundings& surroundings = {}) {
  const Fixed fixed = fix_text("x.profile.json", text, surroundings, options);
  EXPECT_EQ(fixed.refusal, "");
  EXPECT_EQ(fixed.text, text);
  EXPECT_TRUE(fixed.edits.empty());
  EXPECT_EQ(fixed.fixes, 0u);
}

Edits random_edits(std::mt19937& engine, std::string_view text, const std::vector<std::string>& words) {
  const auto below = [&](std::size_t n) { return static_cast<std::uint32_t>(engine() % n); };
  Edits edits;
  std::uint32_t at = 0;
  for (auto n = below(6); n > 0; --n) {
    const std::uint32_t begin = at + below(20), end = begin + below(3) * below(8);
    if (end > text.size()) break;
    edits.push_back({begin, end, words[below(words.size())]});
    at = end == begin ? end + 1 : end; // two insertions at one place have no order
  }
  return edits;
}

}

TEST(Edits, replace_insert_and_remove_in_any_order) {
  EXPECT_EQ(apply_edits("abcdef", Edits{}), "abcdef");
  EXPECT_EQ(apply_edits("abcdef", Edits{{4, 6, ""}, {0, 0, "x"}, {1, 3, "yyy"}}), "xayyyd");
  EXPECT_EQ(apply_edits("", Edits{{0, 0, "x"}}), "x");
}

TEST(Edits, combined_do_what_they_do_one_after_the_other) {
  std::mt19937 engine(1);
  for (int i = 0; i < 20000; ++i) {
    std::string text;
    for (auto n = engine() % 40; n > 0; --n) text += static_cast<char>('a' + engine() % 26);
    Edits all;
    std::string now = text;
    for (int round = 0; round < 3; ++round) {
      const Edits more = random_edits(engine, now, {"", "X", "YY", "ZZZZZ"});
      now = apply_edits(now, more);
      all = round == 0 ? more : combined(std::move(all), more);
      ASSERT_EQ(apply_edits(text, all), now) << text;
      for (std::size_t k = 1; k < all.size(); ++k) ASSERT_LE(all[k - 1].end, all[k].begin);
    }
  }
}

// The form: POSIX.1-2017, diff, "Diff -u or -U Output Format".
TEST(Unified_diff, has_three_lines_of_context) {
  EXPECT_EQ(unified_diff("f", "1\n2\n3\n4\n5\n6\n7\n8\n9\n", Edits{{8, 9, "five"}}),
            "--- f\n+++ f\n@@ -2,7 +2,7 @@\n 2\n 3\n 4\n-5\n+five\n 6\n 7\n 8\n");
}
TEST(Unified_diff, joins_hunks_whose_context_touches) {
  const std::string text = "1\n2\n3\n4\n5\n6\n7\n8\n9\n";
  EXPECT_EQ(unified_diff("f", text, Edits{{0, 1, "one"}, {14, 15, "eight"}}),
            "--- f\n+++ f\n@@ -1,9 +1,9 @@\n-1\n+one\n 2\n 3\n 4\n 5\n 6\n 7\n-8\n+eight\n 9\n");
  EXPECT_EQ(unified_diff("f", text, Edits{{0, 1, "one"}, {16, 17, "nine"}}),
            "--- f\n+++ f\n@@ -1,4 +1,4 @@\n-1\n+one\n 2\n 3\n 4\n@@ -6,4 +6,4 @@\n 6\n 7\n 8\n-9\n+nine\n");
}
TEST(Unified_diff, counts_lines_that_come_and_go) {
  EXPECT_EQ(unified_diff("f", "1\n2\n", Edits{{2, 2, "a\nb\n"}}),
            "--- f\n+++ f\n@@ -1,2 +1,4 @@\n 1\n-2\n+a\n+b\n+2\n");
  EXPECT_EQ(unified_diff("f", "1\n", Edits{{0, 2, ""}}), "--- f\n+++ f\n@@ -1,1 +0,0 @@\n-1\n");
  EXPECT_EQ(unified_diff("f", "", Edits{{0, 0, "1\n"}}), "--- f\n+++ f\n@@ -0,0 +1,1 @@\n+1\n");
}
TEST(Unified_diff, says_where_the_last_line_has_no_end) {
  EXPECT_EQ(
      unified_diff("f", "1", Edits{{0, 1, "2"}}),
      "--- f\n+++ f\n@@ -1,1 +1,1 @@\n-1\n\\ No newline at end of file\n+2\n\\ No newline at end of file\n");
}
TEST(Unified_diff, is_empty_where_nothing_changes) {
  EXPECT_EQ(unified_diff("f", "1\n", Edits{}), "");
  EXPECT_EQ(unified_diff("f", "1\n", Edits{{0, 1, "1"}}), "");
}
TEST(Unified_diff, names_a_file_so_that_the_name_ends_where_it_ends) {
  const auto head = [](std::string_view name) {
    const std::string diff = unified_diff(name, "1\n", Edits{{0, 1, "2"}});
    return diff.substr(0, diff.find('\n'));
  };
  EXPECT_EQ(head("a b"), "--- a b\t");
  EXPECT_EQ(head("a\tb"), "--- \"a\\011b\"");
  EXPECT_EQ(head("a\n+++ b"), "--- \"a\\012+++ b\"");
  EXPECT_EQ(head("a\"b\\c"), "--- \"a\\\"b\\\\c\"");
}

// GNU patch as the judge: texts with and without a last line end, with CR LF, empty ones, with lines that
// look like heads of a diff.
TEST(Unified_diff, is_applied_by_patch) {
  if (std::system("command -v patch >/dev/null") != 0) GTEST_SKIP() << "patch is not installed";
  namespace fs = std::filesystem;
  const fs::path folder = fs::temp_directory_path() / fmt::format("ohmlore-unit-diff-{}", getpid());
  fs::remove_all(folder);
  fs::create_directories(folder);
  const std::vector<std::string> words = {
      "", "x", "\n", "\n\n", "a\r\n", "--- a\n", "+++ a\n", "@@ -1 +1 @@\n", "-"};
  std::mt19937 engine(2);
  std::vector<std::string> wanted;
  std::ofstream all(folder / "all.diff", std::ios::binary);
  for (int i = 0; i < 400; ++i) {
    std::string text;
    for (auto n = engine() % 60; n > 0; --n)
      text += engine() % 3 == 0 ? words[engine() % words.size()] : "word ";
    const Edits edits = random_edits(engine, text, words);
    const std::string name = fmt::format("f {}", i);
    wanted.push_back(apply_edits(text, edits));
    std::ofstream(folder / name, std::ios::binary) << text;
    all << unified_diff(name, text, edits);
  }
  all.close();
  const std::string command =
      "cd '" + folder.string() + "' && patch --binary -p0 --fuzz=0 <all.diff >out 2>&1";
  ASSERT_EQ(std::system(command.c_str()), 0) << test::read_bytes(folder / "out");
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const fs::path file = folder / (fmt::format("f {}", i));
    // A file that became empty is one that patch removes.
    EXPECT_EQ(fs::exists(file) ? test::read_bytes(file) : "", wanted[i]);
  }
  fs::remove_all(folder);
}

TEST(Fix, respells_quantities) {
  const auto model = [](std::string_view r) {
    return component(R"({ "kind": "fixed", "resistance": ")" + std::string(r) + R"(", "tolerance": "5 %" })");
  };
  expect_fixed(model("4k70"), model("4.70 kΩ"));
  expect_fixed(model("10kohm"), model("10 kΩ"));
  expect_fixed(model("10 \u2126"), model("10 Ω"));
  expect_fixed(model("10 k\\u2126"), model("10 kΩ"));
  expect_fixed(model("4,7 kΩ"), model("4.7 kΩ"));
  expect_left(model("4,700 Ω")); // thousands?
}
TEST(Fix, writes_what_a_look_alike_stands_for) {
  const auto model = [](std::string_view r) {
    return component(R"({ "kind": "fixed", "resistance": ")" + std::string(r) + R"(", "tolerance": "5 %" })");
  };
  expect_fixed(model("10 \u041AΩ"), model("10 kΩ")); // CYRILLIC CAPITAL LETTER KA
}
TEST(Fix, writes_words_in_their_case_and_no_others) {
  expect_fixed(profile("", "Natural Gas"), profile("", "natural_gas"));
  expect_fixed(profile("", "NATURAL-GAS"), profile("", "natural_gas"));
  expect_left(profile("", "natural_gass"));
}
// The reader names a thousand at a time, and none of these makes the text shorter.
TEST(Fix, comes_to_the_end_of_more_than_a_reader_names) {
  std::string faults;
  for (int i = 0; i < 1000; ++i) {
    const std::string_view suspect =
        R"({"kind":"component","component":"s","modes":["OPEN","SHORT","DRIFT_LOW","DRIFT_HIGH","LEAKAGE_TO_EARTH","SEIZED"]})";
    faults += fmt::format(
        R"({}"F{}":{{"display":{{"kind":"text","text":"F{}"}},"meaning":"m","suspects":[{},{},{},{}]}})",
        i == 0 ? "" : ",", i, i, suspect, suspect, suspect, suspect);
  }
  const Fixed fixed =
      fix_text("many.profile.json", profile(fmt::format(R"(, "faults": {{{}}})", faults)), {}, {});
  EXPECT_EQ(fixed.refusal, "");
  EXPECT_EQ(fixed.fixes, 24'000u);
}
TEST(Fix, writes_numbers_and_truth_without_quotation_marks) {
  std::string bad = profile("");
  bad.replace(bad.find("\"revision\": 1"), 13, "\"revision\": \"1\"");
  expect_fixed(bad, profile(""));
  bad = profile("");
  bad.replace(bad.find("\"revision\": 1"), 13, "\"revision\": 1.0");
  expect_fixed(bad, profile(""));
}
TEST(Fix, writes_colours_as_codes) {
  const auto wire = [](std::string_view code) {
    return profile(R"(, "connectors": { "X1": { "label": "X1", "ways": 1, "circuit": "selv",
      "pins": { "1": { "signal": "a", "wire": { "base": ")" +
                   std::string(code) + R"(" } } } } })");
  };
  expect_fixed(wire("bn"), wire("BN"));
  expect_fixed(wire("brown"), wire("BN"));
  expect_left(wire("mauve"));
}
TEST(Fix, removes_a_byte_order_mark_and_commas_that_end_a_list) {
  const std::string good = profile("");
  std::string bad = "\xEF\xBB\xBF";
  bad += good;
  for (std::size_t at = bad.size(); (at = bad.find_last_of("}]", at - 1)) != std::string::npos;)
    bad.insert(at, 1, ',');
  const auto commas = static_cast<std::size_t>(std::count(bad.begin(), bad.end(), ',') -
                                               std::count(good.begin(), good.end(), ','));
  ASSERT_EQ(commas, 10u);
  expect_fixed(bad, good, commas + 1);
}

TEST(Fix, exchanges_limits_only_around_their_nominal) {
  const std::string good = R"({ "at": "25 °C", "nominal": "10 kΩ", "min": "9.8 kΩ", "max": "10.2 kΩ" })";
  expect_fixed(table(R"({ "at": "25 °C", "nominal": "10 kΩ", "min": "10.2 kΩ", "max": "9.8 kΩ" })"),
               table(good));
  // Two fixes of one text: first the exchange, then the spelling.
  expect_fixed(table(R"({ "at": "25 °C", "nominal": "10 kΩ", "min": "10K2", "max": "9.8kΩ" })"), table(good),
               3);
  expect_left(table(R"({ "at": "25 °C", "min": "10.2 kΩ", "max": "9.8 kΩ" })"));
  expect_left(table(R"({ "at": "25 °C", "nominal": "9.8 kΩ", "min": "10.2 kΩ", "max": "9.8 kΩ" })"));
  expect_left(table(R"({ "at": "25 °C", "nominal": "10.2 kΩ", "min": "10.2 kΩ", "max": "9.8 kΩ" })"));
  expect_left(table(R"({ "at": "25 °C", "nominal": "12 kΩ", "min": "10.2 kΩ", "max": "9.8 kΩ" })"));
}

TEST(Fix, leaves_what_is_waived_until_the_waiver_ends) {
  const std::string model = R"({ "kind": "fixed", "resistance": "4k7", "tolerance": "5%" })";
  const std::string waiver = R"(,
  "waivers": [{ "rule": "spelling-not-canonical", "at": "/components/flow/model/resistance", "why": "as printed",
                "until": "2026-03" }])";
  const std::string bad = component(model, waiver);
  std::string good = bad;
  good.replace(good.find("5%"), 2, "5 %");
  const Fixed fixed = fix_text("x.profile.json", bad, {}, {"2026-03-31"});
  EXPECT_EQ(fixed.text, good);
  EXPECT_EQ(fixed.fixes, 1u);
  good.replace(good.find("4k7"), 3, "4.7 kΩ");
  EXPECT_EQ(fix_text("x.profile.json", bad, {}, {"2026-04-01"}).text, good);
}
TEST(Fix, leaves_what_the_policy_switches_off) {
  const Read_result corpus = read_json("corpus.json", R"({
    "format": "ohmlore/1.0", "kind": "corpus", "title": "Larch", "licence": "CC0-1.0",
    "policy": { "severities": { "spelling-not-canonical": "off" } }
  })");
  ASSERT_NE(corpus.document.corpus(), nullptr);
  const std::string text = component(R"({ "kind": "fixed", "resistance": "4k7", "tolerance": "5 %" })");
  expect_left(text, {}, {corpus.document.corpus(), nullptr});
  EXPECT_EQ(fix_text("x.profile.json", text).fixes, 1u);
}

// What a mended kind uncovers is no reason to leave it.
TEST(Fix, may_uncover_errors) {
  std::string bad = component(R"({ "kind": "Fixed", "resistence": "4k7" })");
  const Fixed fixed = fix_text("x.profile.json", bad);
  EXPECT_EQ(fixed.refusal, "");
  EXPECT_EQ(fixed.fixes, 1u);
  EXPECT_EQ(fixed.text, component(R"({ "kind": "fixed", "resistence": "4k7" })"));
}

TEST(Error_made, is_one_that_nothing_hid) {
  const auto finding = [](std::string_view rule, std::string_view pointer,
                          Severity severity = Severity::error) {
    Finding f;
    f.rule = rule;
    f.pointer = pointer;
    f.severity = severity;
    return f;
  };
  using Findings = std::vector<Finding>;
  const Finding inverted = finding("band-inverted", "/a/max"), word = finding("word-unknown", "/a/kind"),
                unit = finding("look-alike-refused", "/a/max"),
                note = finding("spelling-not-canonical", "/a/min", Severity::note);
  EXPECT_EQ(error_made({}, {}, {}), nullptr);
  EXPECT_EQ(error_made(Findings{inverted}, Findings{note}, Findings{inverted}), nullptr)
      << "stood there before";
  EXPECT_EQ(error_made(Findings{note}, Findings{note}, Findings{note}), nullptr) << "no error";
  Findings after = {inverted};
  EXPECT_EQ(error_made(Findings{note}, Findings{note}, after), &after[0]);
  EXPECT_EQ(error_made(Findings{unit}, Findings{unit}, after), nullptr) << "the rule sees the value now";
  after = {finding("key-missing", "/a")};
  EXPECT_EQ(error_made(Findings{word}, Findings{word}, after), nullptr) << "the reader knows the kind now";
  EXPECT_EQ(error_made(Findings{unit}, Findings{unit}, after), &after[0])
      << "a value says nothing of its record";
  after = {finding("key-missing", "/ab")};
  EXPECT_EQ(error_made(Findings{word}, Findings{word}, after), &after[0]) << "another record";
}
