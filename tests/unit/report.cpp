// Findings as text and as JSON: what a person sees on a terminal, and what a program gets.
#include "ohmlore/report.h"

#include <clocale>
#include <cwchar>
#include <random>
#include <regex>
#include <sstream>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidjson/document.h>

#include "ohmlore/document.h"

namespace ohmlore {
namespace {

using namespace std::string_literals;

// A finding about the columns [first, last) of one line.
Finding finding_on(std::string line, std::uint32_t first, std::uint32_t last) {
  Finding finding;
  finding.rule = "key-unknown";
  finding.file = "larch.profile.json";
  finding.region.first = {7, first};
  finding.region.last = {7, last};
  finding.message = "message";
  finding.source_line = std::move(line);
  return finding;
}

struct Shown {
  std::string head, source, carets; // the last two without their margin
  std::vector<std::string> rest;
};

constexpr std::size_t margin = 10; // "      7 | "

Shown shown(const Finding& finding) {
  std::istringstream in(text_report(finding));
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  EXPECT_GE(lines.size(), 3u);
  lines.resize(std::max<std::size_t>(lines.size(), 3));
  EXPECT_EQ(lines[2].substr(0, margin), "        | ");
  Shown s{lines[0], lines[1].size() > margin ? lines[1].substr(margin) : "", lines[2].substr(margin), {}};
  s.rest.assign(lines.begin() + 3, lines.end());
  return s;
}

// Columns that a terminal gives to a text, by the C library's wcwidth.
class Terminal {
public:
  Terminal() { EXPECT_NE(std::setlocale(LC_CTYPE, "C.UTF-8"), nullptr); }
  ~Terminal() { std::setlocale(LC_CTYPE, "C"); }
  // The character (with what stands on it) at a column.
  std::string at(std::string_view text, std::size_t column) const {
    std::string found;
    std::size_t here = 0;
    for (std::size_t i = 0; i < text.size();) {
      const std::size_t begin = i;
      const auto width = wcwidth(static_cast<wchar_t>(next_code_point(text, i)));
      if (width == 0 ? here == column + 1 && !found.empty() : here == column)
        found += text.substr(begin, i - begin);
      here += static_cast<std::size_t>(std::max(width, 0));
    }
    return found;
  }
  std::size_t columns(std::string_view text) const {
    std::size_t sum = 0;
    for (std::size_t i = 0; i < text.size();)
      sum += static_cast<std::size_t>(std::max(wcwidth(static_cast<wchar_t>(next_code_point(text, i))), 0));
    return sum;
  }
};

std::string repeated(std::string_view text, int times) {
  std::string out;
  for (int i = 0; i < times; ++i) out += text;
  return out;
}

// ---- one finding

TEST(Text_report, names_place_severity_message_and_rule) {
  Finding finding = finding_on(R"(  "colour": "red",)", 3, 11);
  finding.severity = Severity::warning;
  finding.related.push_back({"other.json", {0, 0, {2, 5}, {2, 6}}, "first here"});
  finding.fixes.push_back({"rename to `code`", Fix_safety::unsafe, {}});
  EXPECT_EQ(text_report(finding), "larch.profile.json:7:3: warning: message [key-unknown]\n"
                                  "      7 |   \"colour\": \"red\",\n"
                                  "        |   ^~~~~~~~\n"
                                  "        = other.json:2:5: first here\n"
                                  "        = mend: rename to `code`\n");
}

TEST(Text_report, colours_change_no_character) {
  Finding finding = finding_on(R"("a": "Ω")", 6, 9);
  for (const Severity severity : {Severity::note, Severity::warning, Severity::error}) {
    finding.severity = severity;
    const std::string coloured = text_report(finding, true);
    EXPECT_NE(coloured, text_report(finding));
    EXPECT_EQ(std::regex_replace(coloured, std::regex("\x1b\\[[0-9;]*m"), ""), text_report(finding));
    EXPECT_EQ(coloured.rfind("\x1b["), coloured.rfind("\x1b[0m")) << "the last code ends all colours";
  }
}

// ---- the caret

TEST(Caret, stands_under_each_character) {
  const Terminal terminal;
  for (const std::string line : {"10 kΩ ±5 %", "水温センサー 10 kΩ", "온도 센서 x", "１０ kΩ",
                                 "dŵr – “ok” €5", "température e\u0301te\u0301"}) {
    SCOPED_TRACE(line);
    std::uint32_t column = 0;
    for (std::size_t i = 0; i < line.size();) {
      const std::size_t begin = i;
      const char32_t c = next_code_point(line, i);
      ++column;
      if (c == 0x301) continue;
      const Shown s = shown(finding_on(line, column, column + 1));
      EXPECT_EQ(s.source, line);
      const std::size_t caret = s.carets.find('^');
      EXPECT_EQ(s.carets.find_first_not_of(' '), caret);
      std::string expected = line.substr(begin, i - begin);
      if (line.substr(i).starts_with("\u0301")) expected += "\u0301";
      EXPECT_EQ(terminal.at(s.source, caret), expected) << s.source << '\n' << s.carets;
    }
  }
}

TEST(Caret, covers_the_region_as_wide_as_it_is_shown) {
  const Terminal terminal;
  for (const std::string word : {"x", "kΩ", "センサー", "e\u0301te\u0301"}) {
    const auto length = static_cast<std::uint32_t>(code_points(word));
    const Shown s = shown(finding_on("“" + word + "”", 2, 2 + length));
    EXPECT_EQ(s.carets, " ^" + std::string(terminal.columns(word) - 1, '~')) << word;
  }
}

TEST(Caret, takes_a_tab_for_one_space) {
  const Shown s = shown(finding_on("\t\t\"a\":\tx,", 8, 9));
  EXPECT_EQ(s.source, "  \"a\": x,");
  EXPECT_EQ(s.carets, "       ^");
}

TEST(Caret, covers_the_whole_escape_of_what_is_not_printed) {
  Shown s = shown(finding_on("20 \xB0"
                             "C",
                             4, 5));
  EXPECT_EQ(s.source, "20 \\xB0C");
  EXPECT_EQ(s.carets, "   ^~~~");
  s = shown(finding_on("a\x1B[31m\u202Eb", 2, 3));
  EXPECT_EQ(s.source, "a\\u{001B}[31m\\u{202E}b");
  EXPECT_EQ(s.carets, " ^~~~~~~~");
  s = shown(finding_on("a\x1B[31m\u202Eb", 8, 9));
  EXPECT_EQ(s.carets, std::string(1 + 8 + 4 + 8, ' ') + '^');
  s = shown(finding_on("10\u200Bk", 3, 4));
  EXPECT_EQ(s.source, "10\\u{200B}k");
  EXPECT_EQ(s.carets, "  ^~~~~~~~");
}

TEST(Caret, shows_a_combining_mark_that_is_spoken_of) {
  const Shown s = shown(finding_on("e\u0301x", 2, 3));
  EXPECT_EQ(s.source, "e\\u{0301}x");
  EXPECT_EQ(s.carets, " ^~~~~~~~");
}

TEST(Caret, stands_behind_the_line_where_its_end_is_meant) {
  Shown s = shown(finding_on("\"a\": 1", 7, 7));
  EXPECT_EQ(s.source, "\"a\": 1");
  EXPECT_EQ(s.carets, "      ^");
  s = shown(finding_on("", 1, 1));
  EXPECT_EQ(s.source, "");
  EXPECT_EQ(s.carets, "^");
  s = shown(finding_on("ab", 90, 95));
  EXPECT_EQ(s.carets, "  ^") << "a place that is not there is the end";
}

TEST(Caret, runs_to_the_end_of_the_line_where_the_region_goes_on) {
  Finding finding = finding_on("  \"pins\": {", 11, 4);
  finding.region.last = {9, 4};
  EXPECT_EQ(shown(finding).carets, "          ^");
  finding.region.first = {7, 3};
  EXPECT_EQ(shown(finding).carets, "  ^~~~~~~~~");
}

TEST(Caret, is_one_for_an_empty_region) { EXPECT_EQ(shown(finding_on("abc", 2, 2)).carets, " ^"); }

// ---- long lines

constexpr std::size_t widest = 120;

TEST(Long_line, is_shown_whole_while_it_fits) {
  const std::string line = repeated("0123456789", 12);
  for (const std::uint32_t column : {1u, 60u, 61u, 62u, 120u}) {
    const Shown s = shown(finding_on(line, column, column + 1));
    EXPECT_EQ(s.source, line);
    EXPECT_EQ(s.carets, std::string(column - 1, ' ') + '^');
  }
}

TEST(Long_line, is_cut_around_the_place) {
  const Terminal terminal;
  for (const std::string unit : {"abcdefghi", "センサ x", "10 kΩ\t", "\x1B\xB0 y"}) {
    std::string line;
    std::vector<std::string> characters;
    std::vector<std::size_t> before = {0}; // columns before each
    while (characters.size() < 700) {
      for (std::size_t i = 0; i < unit.size();) {
        const std::size_t begin = i;
        next_code_point(unit, i);
        characters.push_back(unit.substr(begin, i - begin));
        line += characters.back();
        before.push_back(before.back() +
                         terminal.columns(unit[begin] == '\t' ? " " : printable(characters.back())));
      }
    }
    for (std::size_t k = 0; k < characters.size(); k += 7) {
      const auto column = static_cast<std::uint32_t>(k + 1);
      const Shown s = shown(finding_on(line, column, column + 1));
      EXPECT_LE(terminal.columns(s.source), widest + 2) << s.source;
      EXPECT_GE(terminal.columns(s.source), widest - 9) << "as much as fits: " << s.source;
      const std::string expected = characters[k] == "\t" ? " " : printable(characters[k]);
      const std::size_t caret = s.carets.find('^');
      std::string under;
      for (std::size_t i = 0; i < expected.size() && caret + i < widest + 2; ++i) {
        under += terminal.at(s.source, caret + i);
        if (under.size() >= expected.size()) break;
      }
      EXPECT_EQ(under.empty() ? " " : under, expected) << s.source << '\n' << s.carets;
      EXPECT_EQ(s.source.starts_with("…"), before[k] > widest / 2);
    }
  }
}

TEST(Long_line, shows_the_region_as_far_as_there_is_room) {
  const Shown s = shown(finding_on(std::string(400, 'x'), 201, 401));
  EXPECT_EQ(s.source, "…" + std::string(widest, 'x') + "…");
  EXPECT_EQ(s.carets, " " + std::string(60, ' ') + '^' + std::string(59, '~'));
}

TEST(Long_line, may_come_as_an_excerpt) {
  Finding finding = finding_on("0123456789", 1004, 1006);
  finding.source_column = 1001;
  const Shown s = shown(finding);
  EXPECT_EQ(s.source, "…0123456789");
  EXPECT_EQ(s.carets, "    ^~");
  EXPECT_NE(s.head.find(":7:1004: "), std::string::npos);
}

// ---- nothing of a document steers the terminal

TEST(Terminal_safety, of_every_text_that_a_document_may_bring) {
  const std::string evil = "\x1B]0;owned\x07\r\u009B31m\u202E\n";
  Finding finding = finding_on(evil, 1, 2);
  finding.file = finding.message = evil;
  finding.related.push_back({evil, {}, evil});
  finding.fixes.push_back({evil, Fix_safety::safe, {}});
  const std::string text = text_report(finding);
  EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 5) << text;
  EXPECT_EQ(text.find_first_of("\x1B\x07\r"), std::string::npos);
  EXPECT_EQ(text.find("\u009B"), std::string::npos);
  EXPECT_EQ(text.find("\u202E"), std::string::npos);
}

// Documents broken at random: the report stays one that a terminal and a program can take.
class Broken_documents : public testing::Test {
protected:
  static std::string document(std::mt19937& random) {
    static const std::string base =
        R"({ "format": "ohmlore/1.0", "kind": "profile", "id": "larch", "revision": 1,
  "sources": { "notes": { "kind": "maker_document", "title": "Larch Ω 水温" } },
	"components": { "pump": { "kind": "winding", "name": "Pump", "between": ["X1.1", "X1.2"] } } })";
    static const std::string_view shreds[] = {"\x1B[31m", "\xB0",    "\u202E", "\u200B", "\"", "\\u0007",
                                              "\\ud800",  "{",       "]",      ",",      "\n", "\t",
                                              "水",       "e\u0301", "null",   "\x01"};
    std::string text = base;
    for (std::size_t n = random() % 6 + 1; n > 0; --n) {
      const std::size_t at = random() % text.size();
      text.replace(at, random() % 3, shreds[random() % std::size(shreds)]);
    }
    return text;
  }
};

TEST_F(Broken_documents, give_lines_without_controls) {
  std::mt19937 random(20260101);
  std::size_t findings = 0;
  for (int i = 0; i < 2000; ++i) {
    const Read_result read = read_json("broken.json", document(random));
    for (const Finding& finding : read.findings) {
      ++findings;
      const std::string text = text_report(finding);
      EXPECT_EQ(printable(text.substr(0, text.find('\n'))), text.substr(0, text.find('\n')));
      std::istringstream lines(text);
      for (std::string line; std::getline(lines, line);) {
        EXPECT_EQ(printable(line), line);
        EXPECT_FALSE(line.ends_with(' ')) << line;
      }
      EXPECT_NE(text.find('^'), std::string::npos) << text;
    }
  }
  EXPECT_GT(findings, 2000u);
}

// ---- JSON

// Strict: every byte checked as UTF-8.
rapidjson::Document parsed(const std::string& json) {
  rapidjson::Document document;
  document.Parse<rapidjson::kParseValidateEncodingFlag>(json.data(), json.size());
  EXPECT_FALSE(document.HasParseError()) << json.substr(0, 2000);
  return document;
}

TEST(Json_report, holds_what_a_finding_holds) {
  Lint_run run;
  Finding finding = finding_on(R"("colour": 1)", 1, 9);
  finding.region.begin = 100;
  finding.region.end = 108;
  finding.pointer = "/components/pump";
  finding.related.push_back({"other.json", {1, 2, {3, 4}, {3, 5}}, "first here"});
  finding.fixes.push_back({"rename", Fix_safety::unsafe, {{100, 108, "\"code\""}}});
  run.findings = {finding};
  run.files_read = 3;
  run.files_unchanged = 40;
  run.troubles = {"x: cannot be read"};
  const rapidjson::Document json = parsed(json_report(run));
  EXPECT_STREQ(json["format"].GetString(), "ohmlore-report/1.0");
  EXPECT_EQ(json["files_read"].GetInt(), 3);
  EXPECT_EQ(json["files_unchanged"].GetInt(), 40);
  EXPECT_EQ(json["totals"]["error"].GetInt(), 1);
  EXPECT_EQ(json["totals"]["warning"].GetInt(), 0);
  EXPECT_STREQ(json["troubles"][0].GetString(), "x: cannot be read");
  const auto& one = json["findings"][0];
  EXPECT_STREQ(one["rule"].GetString(), "key-unknown");
  EXPECT_STREQ(one["family"].GetString(), "shape");
  EXPECT_STREQ(one["severity"].GetString(), "error");
  EXPECT_STREQ(one["file"].GetString(), "larch.profile.json");
  EXPECT_STREQ(one["pointer"].GetString(), "/components/pump");
  EXPECT_EQ(one["region"]["begin"].GetInt(), 100);
  EXPECT_EQ(one["region"]["end"].GetInt(), 108);
  EXPECT_EQ(one["region"]["first"]["line"].GetInt(), 7);
  EXPECT_EQ(one["region"]["last"]["column"].GetInt(), 9);
  EXPECT_STREQ(one["related"][0]["file"].GetString(), "other.json");
  EXPECT_EQ(one["related"][0]["region"]["first"]["column"].GetInt(), 4);
  EXPECT_STREQ(one["fixes"][0]["safety"].GetString(), "unsafe");
  EXPECT_STREQ(one["fixes"][0]["edits"][0]["text"].GetString(), "\"code\"");
}

TEST(Json_report, is_well_formed_for_the_worst_texts) {
  Lint_run run;
  Finding finding = finding_on("line", 1, 2);
  const std::string worst = "\0\x01\x1F\"\\/\x7F\xB0\xE2\x82\xED\xA0\x80\xF5 Ω 水 \u2028\uFFFF😀"s;
  finding.file = finding.message = finding.pointer = worst;
  finding.related.push_back({worst, {}, worst});
  finding.fixes.push_back({worst, Fix_safety::safe, {{0, 1, worst}}});
  run.findings = {finding};
  run.troubles = {worst};
  const rapidjson::Document json = parsed(json_report(run));
  const auto& message = json["findings"][0]["message"];
  EXPECT_EQ(std::string(message.GetString(), message.GetStringLength()),
            "\0\x01\x1F\"\\/\x7F\\xB0\\xE2\\x82\\xED\\xA0\\x80\\xF5 Ω 水 \u2028\uFFFF😀"s)
      << "each byte that is no UTF-8 stays known";
}

TEST_F(Broken_documents, give_well_formed_json) {
  std::mt19937 random(20260102);
  for (int i = 0; i < 300; ++i) {
    Lint_run run;
    run.findings = read_json("broken \xFF.json", document(random)).findings;
    const rapidjson::Document json = parsed(json_report(run));
    ASSERT_TRUE(json.IsObject());
    EXPECT_EQ(json["findings"].Size(), run.findings.size());
  }
}

TEST(Json_report, takes_a_thousand_findings) {
  std::string text = R"({ "format": "ohmlore/1.0", "kind": "profile")";
  for (int i = 0; i < 990; ++i) text += fmt::format(",\n\"\\u0007key{}\": \"\xB0\"", i);
  text += " }";
  Lint_run run;
  run.findings = read_json("many.json", text).findings;
  EXPECT_GE(run.findings.size(), 990u);
  const rapidjson::Document json = parsed(json_report(run));
  ASSERT_TRUE(json.IsObject());
  EXPECT_EQ(json["findings"].Size(), run.findings.size());
  EXPECT_EQ(json["totals"]["error"].GetUint(), run.findings.size());
}

// ---- the last line

TEST(Summary, counts_in_words) {
  Lint_run run;
  run.files_read = 1;
  EXPECT_EQ(summary_line(run), "1 file read, nothing found\n");
  run.files_read = 12;
  EXPECT_EQ(summary_line(run), "12 files read, nothing found\n");
  run.findings = {finding_on("", 1, 1), finding_on("", 1, 1), finding_on("", 1, 1)};
  run.findings[1].severity = Severity::note;
  EXPECT_EQ(summary_line(run), "12 files read: 2 errors, 0 warnings, 1 note\n");
}

}
}
