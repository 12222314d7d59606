// Reports for services: what each escapes, marks and splits. Whole reports are judged by the schemas of
// others in tests/property/report_schemas.py.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <pugixml.hpp>
#include <rapidjson/document.h>

#include "ohmlore/report.h"
#include "support/scarce.h"

using namespace std::string_literals;

namespace ohmlore {
namespace {

const Report_context context{"/home/larch/corpus", "2026-01-02T03:04:05"};

Finding finding(std::string message, std::string file = "a.profile.json") {
  Finding one;
  one.rule = "pin-undeclared";
  one.severity = Severity::error;
  one.file = std::move(file);
  one.document = "profile a";
  one.region = {10, 14, {2, 3}, {2, 7}};
  one.pointer = "/a";
  one.message = std::move(message);
  one.fails = true;
  return one;
}

rapidjson::Document sarif(const Lint_run& run) {
  const std::string text = sarif_report(run, context);
  rapidjson::Document json;
  json.Parse<rapidjson::kParseValidateEncodingFlag>(text.data(), text.size());
  EXPECT_FALSE(json.HasParseError());
  return json;
}

// ---- file names as URIs: RFC 3986, 2.1, 2.3 and 4.2

TEST(Uri, is_relative_inside_the_folder_and_whole_outside) {
  EXPECT_EQ(uri_of("parts/a.part.json", "/home/larch"), "parts/a.part.json");
  EXPECT_EQ(uri_of("./parts/../a.json", "/home/larch"), "a.json");
  EXPECT_EQ(uri_of("/home/larch/a.json", "/home/larch"), "a.json");
  EXPECT_EQ(uri_of("../other/a.json", "/home/larch"), "file:///home/other/a.json");
  EXPECT_EQ(uri_of("/srv/a b.json", "/home/larch"), "file:///srv/a%20b.json");
}

TEST(Uri, escapes_all_but_the_unreserved) {
  EXPECT_EQ(uri_of("a-._~Z9/b", "/x"), "a-._~Z9/b");
  EXPECT_EQ(uri_of("a:b?c#d%e [f] é\xFF", "/x"), "a%3Ab%3Fc%23d%25e%20%5Bf%5D%20%C3%A9%FF");
}

// ---- annotations: docs.github.com, "Workflow commands"; escapes as command.ts of actions/toolkit has them

TEST(Github_report, escapes_what_would_end_a_property_or_a_command) {
  Lint_run run;
  run.findings = {finding("100 %, a:b\nc\rd", "a,b:c%d.json")};
  EXPECT_EQ(github_report(run, context),
            "::error file=a%2Cb%3Ac%25d.json,line=2,endLine=2,col=3,endColumn=7,title=pin-undeclared::"
            "100 %25, a:b\\u{000A}c\\u{000D}d\n");
}

TEST(Github_report, names_a_file_as_a_service_finds_it) {
  Lint_run run;
  run.findings = {finding("a", "two\nlines\r\x1B.json")};
  EXPECT_EQ(github_report(run, context),
            "::error "
            "file=two%0Alines%0D\\u{001B}.json,line=2,endLine=2,col=3,endColumn=7,title=pin-undeclared::a\n");
}

TEST(Github_report, has_a_line_for_each_finding_and_trouble) {
  Lint_run run;
  run.findings = {finding("a"), finding("b"), finding("c")};
  run.findings[1].severity = Severity::warning;
  run.findings[2].severity = Severity::note;
  run.findings[2].region.last = {4, 1};
  run.troubles = {"x: cannot\nbe read"};
  run.suppressed = {finding("not seen")};
  EXPECT_EQ(github_report(run, context),
            "::error title=ohmlore::x: cannot\\u{000A}be read\n"
            "::error file=a.profile.json,line=2,endLine=2,col=3,endColumn=7,title=pin-undeclared::a\n"
            "::warning file=a.profile.json,line=2,endLine=2,col=3,endColumn=7,title=pin-undeclared::b\n"
            "::notice file=a.profile.json,line=2,endLine=4,title=pin-undeclared::c\n");
}

// ---- SARIF 2.1.0

TEST(Sarif_report, of_nothing_has_one_run_that_succeeded) {
  const rapidjson::Document json = sarif({});
  ASSERT_EQ(json["runs"].Size(), 1u);
  EXPECT_EQ(json["runs"][0]["results"].Size(), 0u);
  EXPECT_TRUE(json["runs"][0]["invocations"][0]["executionSuccessful"].GetBool());
  EXPECT_STREQ(json["runs"][0]["columnKind"].GetString(), "unicodeCodePoints");
  EXPECT_STREQ(json["runs"][0]["automationDetails"]["id"].GetString(), "ohmlore/1/") << "as of many runs";
}

TEST(Sarif_report, says_troubles) {
  Lint_run run;
  run.troubles = {"x {y}: cannot be read"};
  const rapidjson::Document json = sarif(run);
  const auto& invocation = json["runs"][0]["invocations"][0];
  EXPECT_FALSE(invocation["executionSuccessful"].GetBool());
  // 3.11.5: braces are doubled
  EXPECT_STREQ(invocation["toolExecutionNotifications"][0]["message"]["text"].GetString(),
               "x {{y}}: cannot be read");
}

// Who imports tables or XML reports what their readers find in the same way.
TEST(Sarif_report, describes_what_no_rule_of_the_linter_finds) {
  Lint_run run;
  for (const char* slug : {"table-malformed", "of-a-program-that-embeds"})
    run.findings.push_back(finding("refused")), run.findings.back().rule = slug;
  const rapidjson::Document json = sarif(run);
  const auto& rules = json["runs"][0]["tool"]["driver"]["rules"];
  ASSERT_EQ(rules.Size(), 2u);
  EXPECT_STREQ(rules[0]["id"].GetString(), "of-a-program-that-embeds");
  EXPECT_FALSE(rules[0].HasMember("help"));
  EXPECT_NE(std::string(rules[1]["shortDescription"]["text"].GetString()).find("RFC 4180"),
            std::string::npos);
  EXPECT_NE(json_report(run).find(R"("family": "shape")"), std::string::npos);
  EXPECT_TRUE(fails(run.findings[0], Severity::error, nullptr));

  std::vector<Linted> linted(1);
  linted[0].file = run.findings[0].file;
  EXPECT_EQ(settle(std::move(linted), run.findings, nullptr, {}).size(), 2u);
  std::vector<Fact> facts(2);
  for (Fact& fact : facts) fact.rule = "of-a-program-that-embeds";
  EXPECT_TRUE(judge_facts(facts).empty());
}

// 3.11.6: what would be a link is escaped
TEST(Sarif_report, makes_no_link_of_a_message) {
  Lint_run run;
  run.findings = {finding("\\ [here](https://larch.example)")};
  EXPECT_STREQ(sarif(run)["runs"][0]["results"][0]["message"]["text"].GetString(),
               "\\\\ \\[here\\](https://larch.example)");
}

TEST(Sarif_report, has_no_justification_where_a_waiver_says_none) {
  Lint_run run;
  run.suppressed = {finding("waived")};
  run.suppressed[0].suppressed = {Suppressed_by::waiver, ""};
  EXPECT_FALSE(sarif(run)["runs"][0]["results"][0]["suppressions"][0].HasMember("justification"));
}

TEST(Sarif_report, marks_what_is_suppressed_and_keeps_it) {
  Lint_run run;
  run.findings = {finding("open")};
  run.suppressed = {finding("waived"), finding("known")};
  run.suppressed[0].suppressed = {Suppressed_by::waiver, "as printed"};
  run.suppressed[1].suppressed = {Suppressed_by::baseline, "old (x)"};
  const rapidjson::Document json = sarif(run);
  const auto& results = json["runs"][0]["results"];
  ASSERT_EQ(results.Size(), 3u);
  EXPECT_EQ(results[0]["suppressions"].Size(), 0u);
  EXPECT_STREQ(results[1]["suppressions"][0]["kind"].GetString(), "inSource");
  EXPECT_STREQ(results[1]["suppressions"][0]["justification"].GetString(), "as printed");
  EXPECT_STREQ(results[2]["suppressions"][0]["kind"].GetString(), "external");
}

TEST(Sarif_report, has_fingerprints_of_keys_and_numbers_equal_ones) {
  Lint_run run;
  run.findings = {finding("a"), finding("b"), finding("c")};
  run.findings[1].region = {90, 94, {9, 1}, {9, 5}};
  run.findings[2].pointer = "/b";
  const rapidjson::Document json = sarif(run);
  const auto print = [&](unsigned i) {
    return std::string(json["runs"][0]["results"][i]["partialFingerprints"]["ohmlore/v1"].GetString());
  };
  EXPECT_EQ(print(1), print(0) + ":2");
  EXPECT_NE(print(2), print(0));
  EXPECT_EQ(print(0).size(), 64u);
}

TEST(Sarif_report, replaces_the_lines_and_columns_of_a_safe_fix) {
  Lint_run run;
  for (const Finding& one :
       lint_text("a.profile.json", "{\n  \"format\": \"ohmlore/1.0\", \"kind\": \"profile\",\n"
                                   "  \"id\": \"a\", \"revision\": 1,\n  \"components\": { \"s\": "
                                   "{ \"kind\": \"ntc\", \"name\": \"S\", \"model\": { \"kind\": "
                                   "\"fixed\", \"resistance\": \"10kOhm\" } } } }\n"))
    if (one.rule == "unit-not-canonical" || !one.fixes.empty()) run.findings.push_back(one);
  ASSERT_FALSE(run.findings.empty());
  std::size_t replaced = 0;
  const rapidjson::Document json = sarif(run);
  for (const auto& result : json["runs"][0]["results"].GetArray()) {
    if (!result.HasMember("fixes")) continue;
    const auto& change = result["fixes"][0]["artifactChanges"][0];
    EXPECT_STREQ(change["artifactLocation"]["uri"].GetString(), "a.profile.json");
    const auto& region = change["replacements"][0]["deletedRegion"];
    EXPECT_EQ(region["startLine"].GetInt(), 4);
    EXPECT_GT(region["endColumn"].GetInt(), region["startColumn"].GetInt());
    ++replaced;
  }
  EXPECT_GT(replaced, 0u);
}

TEST(Sarif_report, splits_what_is_too_much_for_one_run_and_says_so) {
  Lint_run run;
  run.findings.assign(most_sarif_results, finding("a"));
  EXPECT_EQ(sarif_runs(run), 1u);
  run.suppressed.assign(1, finding("the last"));
  run.suppressed[0].suppressed = {Suppressed_by::waiver, "why"};
  EXPECT_EQ(sarif_runs(run), 2u);
  const rapidjson::Document json = sarif(run);
  ASSERT_EQ(json["runs"].Size(), 2u);
  EXPECT_EQ(json["runs"][0]["results"].Size(), most_sarif_results);
  EXPECT_EQ(json["runs"][1]["results"].Size(), 1u);
  EXPECT_STREQ(json["runs"][1]["automationDetails"]["id"].GetString(), "ohmlore/2/");
  EXPECT_STREQ(
      json["runs"][0]["invocations"][0]["toolExecutionNotifications"][0]["message"]["text"].GetString(),
      "this is run 1 of 2: of 25001 results, at most 25000 stand in one run");
}

TEST(Sarif_report, gives_standard_input_no_address) {
  Lint_run run;
  run.findings = {finding("a", "standard input")};
  const rapidjson::Document json = sarif(run);
  EXPECT_FALSE(
      json["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"].HasMember("uri"));
}

// ---- JUnit

TEST(Junit_report, counts_only_what_fails_as_failure) {
  Lint_run run;
  run.files = {"a.profile.json", "clean.profile.json"};
  run.findings = {finding("one"), finding("two"), finding("three")};
  run.findings[2].rule = "band-too-wide";
  run.findings[2].fails = false;
  run.suppressed = {finding("four")};
  run.suppressed[0].suppressed = {Suppressed_by::waiver, "as printed"};
  run.troubles = {"x: cannot be read"};
  pugi::xml_document xml;
  ASSERT_TRUE(xml.load_string(junit_report(run, context).c_str()));
  std::string told;
  for (const pugi::xml_node suite : xml.child("testsuites").children()) {
    told += fmt::format("{} {} {} {} {}:", suite.attribute("name").value(), suite.attribute("tests").value(),
                        suite.attribute("failures").value(), suite.attribute("errors").value(),
                        suite.attribute("skipped").value());
    for (const pugi::xml_node test : suite.children("testcase"))
      told += fmt::format(" [{} {}]", test.attribute("name").value(), test.first_child().name());
    told += "\n";
  }
  EXPECT_EQ(told, "ohmlore 1 0 1 0: [the work could not be done error]\n"
                  "a.profile.json 3 1 0 1: [pin-undeclared failure] [band-too-wide (does not fail) ] "
                  "[pin-undeclared (suppressed) skipped]\n"
                  "clean.profile.json 1 0 0 0: [nothing found ]\n");
}

TEST(Junit_report, is_whole_or_none_where_memory_runs_out) {
  Lint_run run;
  for (int i = 0; i < 500; ++i)
    run.findings.push_back(finding(fmt::format("the {}th", i), fmt::format("{}.json", i)));
  test::expect_whole_or_none([&] { return junit_report(run, context); });
}

TEST(Junit_report, shows_what_xml_cannot_hold) {
  Lint_run run;
  run.findings = {finding("a\0b\x1B\xB0\uFFFE <&>\""s, "x\x01.json")};
  pugi::xml_document xml;
  const std::string text = junit_report(run, context);
  ASSERT_TRUE(xml.load_buffer(text.data(), text.size()));
  const pugi::xml_node failure =
      xml.child("testsuites").child("testsuite").child("testcase").child("failure");
  EXPECT_STREQ(failure.attribute("message").value(), "2:3: a\\u{0000}b\\u{001B}\\xB0\\u{FFFE} <&>\"");
  EXPECT_STREQ(xml.child("testsuites").child("testsuite").attribute("name").value(), "x\\u{0001}.json");
}

// ---- JSON

// A JSON Pointer holds keys as they are written. RFC 8259, section 7: an escape is the character.
TEST(Json_reports, hold_nothing_that_a_terminal_obeys_and_lose_nothing) {
  const std::string key = "/a\u202Eb\u009B31m\u007Fc\U000E0041 Ω",
                    escaped = "/a\\u202Eb\\u009B31m\\u007Fc\\uDB40\\uDC41 Ω";
  Lint_run run;
  run.findings = {finding("m")};
  run.findings[0].pointer = key;
  rapidjson::Document json;
  const std::string text = json_report(run);
  EXPECT_NE(text.find("\"pointer\": \"" + escaped + "\""), std::string::npos) << text;
  json.Parse(text.data(), text.size());
  EXPECT_EQ(json["findings"][0]["pointer"].GetString(), key);
  EXPECT_NE(sarif_report(run, context).find(": \"" + escaped + "\""), std::string::npos);
  EXPECT_EQ(sarif(run)["runs"][0]["results"][0]["locations"][0]["logicalLocations"][0]["fullyQualifiedName"]
                .GetString(),
            key);
}

// ---- Markdown

TEST(Markdown_report, lets_no_word_of_a_document_be_markup) {
  Lint_run run;
  run.findings = {finding("a|b <img> *c* @all [x](y) `z`\nnext")};
  const std::string text = markdown_report(run, context);
  EXPECT_NE(text.find("a\\|b &lt;img\\> \\*c\\* &#64;all \\[x\\](y) \\`z\\`"), std::string::npos) << text;
}

// GitHub Flavored Markdown 0.29, 6.9 (extended autolinks); of cmark-gfm, what is escaped so stays text.
TEST(Markdown_report, lets_no_document_make_a_link) {
  Lint_run run;
  run.findings = {finding("see https://larch.example and www.larch.example")};
  const std::string text = markdown_report(run, context);
  EXPECT_NE(text.find("see https\\://larch.example and www\\.larch.example"), std::string::npos) << text;
}

TEST(Markdown_report, shows_what_fails_before_all_else) {
  Lint_run run;
  for (int file = 0; file < 100; ++file)
    for (int i = 0; i < 30; ++i) {
      run.findings.push_back(finding("by the way", fmt::format("{:02}.profile.json", file)));
      run.findings.back().fails = false;
    }
  run.findings.back() = finding("the one that fails", "99.profile.json");
  run.failing = 1;
  const std::string text = markdown_report(run, context);
  EXPECT_NE(text.find("| 2 | error, fails | pin-undeclared | the one that fails |"), std::string::npos)
      << text;
  EXPECT_NE(text.find("2500 of 3000 findings are not shown"), std::string::npos) << text;
}

TEST(Markdown_report, says_what_it_leaves_out) {
  Lint_run run;
  for (int file = 0; file < 40; ++file)
    for (int i = 0; i < 21; ++i) run.findings.push_back(finding("m", fmt::format("f{}.json", file)));
  run.failing = run.findings.size();
  const std::string text = markdown_report(run, context);
  std::size_t rows = 0;
  for (std::size_t at = 0; (at = text.find("| 2 | error, fails |", at)) != std::string::npos; ++at) ++rows;
  EXPECT_EQ(rows, 500u);
  EXPECT_NE(text.find("**1 more in this file are not shown.**"), std::string::npos);
  EXPECT_NE(text.find("**340 of 840 findings are not shown here"), std::string::npos);
}

// A step's summary on GitHub holds 1 MiB (its documentation of workflow commands), and none of more.
TEST(Markdown_report, lists_what_could_not_be_done_up_to_a_hundred) {
  Lint_run run;
  for (int i = 0; i < 9000; ++i) run.troubles.push_back(fmt::format("f{}.json: cannot be read", i));
  const std::string text = markdown_report(run, context);
  EXPECT_LT(text.size(), 10'000u);
  EXPECT_NE(text.find("- f99.json: cannot be read\n\n**8900 more are not shown here"), std::string::npos)
      << text;
  run.troubles.resize(100);
  EXPECT_EQ(markdown_report(run, context).find("not shown"), std::string::npos);
}

}
}
