// What is said of a text that is not JSON: the common mistakes of hand-written JSON, each at its place.
#include "ohmlore/document.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <vector>

namespace ohmlore {
namespace {

struct Mistake {
  std::string_view text;
  std::string_view place; // line:column, and to line:column where the region is not one character
  std::string_view message;
};

std::string place_of(const Region& region) {
  const auto [first, last] = std::pair(region.first, region.last);
  if (last.line == first.line && last.column == first.column + 1)
    return fmt::format("{}:{}", first.line, first.column);
  return fmt::format("{}:{}-{}:{}", first.line, first.column, last.line, last.column);
}

void expect(const std::vector<Mistake>& mistakes) {
  for (const Mistake& mistake : mistakes) {
    SCOPED_TRACE(std::string(mistake.text));
    const auto [document, findings] = read_json("t", mistake.text);
    EXPECT_FALSE(document.whole());
    ASSERT_EQ(findings.size(), 1u) << findings.back().message;
    EXPECT_EQ(findings[0].rule, "json-syntax");
    EXPECT_EQ(findings[0].severity, Severity::error);
    EXPECT_EQ(place_of(findings[0].region), mistake.place);
    EXPECT_EQ(findings[0].message, mistake.message);
  }
}

// The text after a fix is applied.
std::string mended(std::string text, const Fix& fix) {
  for (const Edit& edit : fix.edits) text.replace(edit.begin, edit.end - edit.begin, edit.text);
  return text;
}

TEST(Syntax, commas) {
  expect({
      {"{\n  \"a\": 1,\n}", "2:9", "no comma may stand before `}`; remove it"},
      {"[1, 2, ]", "1:6", "no comma may stand before `]`; remove it"},
      {"{\n  \"a\": 1\n  \"b\": 2\n}", "2:9-2:9", "a comma is missing here, before the next key"},
      {"{\"a\": {} \"b\": 2}", "1:9-1:9", "a comma is missing here, before the next key"},
      {"[\"a\" \"b\"]", "1:5-1:5", "a comma is missing here, before the next item"},
      {"[{} {}]", "1:4-1:4", "a comma is missing here, before the next item"},
      {"[1 2]", "1:3-1:3", "a comma is missing here, before `2`"},
      {"[true false]", "1:6-1:6", "a comma is missing here, before `false`"},
      {"[1,,2]", "1:4", "there is a comma too many here; remove it"},
      {"{\"a\": 1,, \"b\": 2}", "1:9", "there is a comma too many here; remove it"},
      {"[,1]", "1:2", "a value is missing before this comma"},
      {"{\"a\": , \"b\": 2}", "1:7", "a value is missing before this comma"},
      {"{\"a\": 1; \"b\": 2}", "1:8", "a comma or `}` must stand here, not `;`"},
      {"[1; 2]", "1:3", "a comma or `]` must stand here, not `;`"},
      {"{\"a\": 1,5}", "1:7-1:10", "a decimal comma stands in this number; write a point"},
  });
}

TEST(Syntax, colons_and_keys) {
  expect({
      {R"({"a" 1})", "1:5-1:5", "a colon is missing between this key and its value"},
      {R"({"a" "b"})", "1:5-1:5", "a colon is missing between this key and its value"},
      {R"({"a" = 1})", "1:6", "a colon stands between key and value, not `=`"},
      {R"({"a"})", "1:5-1:5", "this key has no value; a colon and a value must follow"},
      {R"({"a", "b": 1})", "1:5-1:5", "this key has no value; a colon and a value must follow"},
      {R"({"a":: 1})", "1:6", "a value must stand here, not a colon"},
      {R"({"a": })", "1:6-1:6", "a value is missing before `}`"},
      {R"({a: 1})", "1:2", "the key `a` needs double quotation marks: \"a\""},
      {R"({"a": 1, 2: 3})", "1:10", "the key `2` needs double quotation marks: \"2\""},
      {R"({: 1})", "1:2", "a key in double quotation marks must stand before the colon"},
      {R"(["a": 1])", "1:5", "a colon stands in a list; members with a key stand in braces { }"},
      {R"({"a": 1: 2})", "1:8", "a colon stands after a value; a comma or a key is missing before it"},
      {R"({{"a": 1}})", "1:2", "a key in double quotation marks must stand here, not `{`"},
  });
}

TEST(Syntax, brackets) {
  expect({
      {"{\n  \"a\": [1, 2\n}\n", "3:1",
       "`}` stands here, but the `[` of line 2 is still open; a `]` is missing before"},
      {"{\n  \"a\": {\n    \"b\": [1, 2],\n  \"c\": {}\n}\n", "5:2-5:2",
       "the file ends, but the `{` of line 1 is not closed; a `}` is missing; by the indentation, the `{` of "
       "line 2 was to be closed before line 5"},
      {"[{\"a\": 1]", "1:9", "`]` stands here, but the `{` of line 1 is still open; a `}` is missing before"},
      {"{\n  \"a\": 1\n\n", "2:9-2:9",
       "the file ends, but the `{` of line 1 is not closed; a `}` is missing"},
      {"{\n  \"a\": {\n    \"b\": [1,\n", "3:13-3:13",
       "the file ends while 3 brackets are open; the innermost is the `[` of line 3, which a `]` closes"},
      {"{\"a\": [\n  {\"b\": 1,\n  {\"c\": 2}\n]}", "3:3",
       "a key must stand here, not `{`; perhaps the `{` of line 2 was to be closed before"},
      {"{}}", "1:3", "this `}` closes nothing; all that was opened is closed already"},
      {"[1]]", "1:4", "this `]` closes nothing; all that was opened is closed already"},
      {"]", "1:1-1:1", "a value is missing before `]`"},
      {"{}\n{}\n", "2:1", "something follows the end of the document; one file holds one JSON object"},
      {"{} Ω", "1:4", "something follows the end of the document; one file holds one JSON object"},
  });
  const auto findings = read_json("t", "{\n  \"a\": [1, 2\n}\n").findings;
  ASSERT_EQ(findings[0].related.size(), 1u);
  EXPECT_EQ(place_of(findings[0].related[0].region), "2:8");
  EXPECT_EQ(findings[0].related[0].message, "opened here");
  EXPECT_EQ(findings[0].pointer, "/a") << "the innermost container that is open";
}

TEST(Syntax, quotation_marks) {
  expect({
      {"{'a': 1}", "1:2", "a text stands in double quotation marks \"…\", not in single ones"},
      {"{\"a\": 'b'}", "1:7", "a text stands in double quotation marks \"…\", not in single ones"},
      {"{\"a\": `b`}", "1:7", "a text stands in double quotation marks \"…\", not in backticks"},
      {"{“a”: 1}", "1:2", "a text stands in straight quotation marks \"…\", not in `“`"},
      {"{\"a\": „b“}", "1:7", "a text stands in straight quotation marks \"…\", not in `„`"},
      {"{\"a\": «b»}", "1:7", "a text stands in straight quotation marks \"…\", not in `«`"},
      {"{\"a\": \"b”,\n\"c\": 1}", "1:7-1:11",
       "this text is not closed: `”` is no closing quotation mark; write \""},
      {"{\"a\": \"b,\n\"c\": 1}", "1:7-1:10",
       "this text is not closed on its line; a closing quotation mark is missing, or a line break stands "
       "inside the "
       "text"},
      {"{\"a\": \"the maker’s,\n\"c\": 1}", "1:7-1:20",
       "this text is not closed on its line; a closing quotation mark is missing, or a line break stands "
       "inside the "
       "text"},
      {"{\"a\": \"say \\\"b,\r\n\"c\": 1}", "1:7-1:16",
       "this text is not closed on its line; a closing quotation mark is missing, or a line break stands "
       "inside the "
       "text"},
      {"{\"a\": \"b}", "1:7-1:10", "the file ends inside this text; its closing quotation mark is missing"},
      {"{\"a\": \"b\\", "1:7-1:10", "the file ends inside this text; its closing quotation mark is missing"},
      {"{\"a\": \"the \"big\" one\"}", "1:13-1:16",
       "the text ended at the quotation mark before `big`; a quotation mark inside a text is written \\\""},
  });
}

TEST(Syntax, words_and_units_without_quotation_marks) {
  expect({
      {R"({"a": ntc})", "1:7-1:10",
       "`ntc` is not a JSON value; write it as text, in double quotation marks: \"ntc\""},
      {R"({"a": Flow sensor, "b": 1})", "1:7-1:18",
       "`Flow sensor` is not a JSON value; write it as text, in double quotation marks: \"Flow sensor\""},
      {R"({"a": nope})", "1:7-1:11",
       "`nope` is not a JSON value; write it as text, in double quotation marks: \"nope\""},
      {R"({"a": 10 kΩ, "b": 1})", "1:7-1:12",
       "`10 kΩ` is a value with a unit; write it as text, in double quotation marks: \"10 kΩ\""},
      {R"({"a": 10kΩ})", "1:7-1:11",
       "`10kΩ` is not a JSON value; write it as text, in double quotation marks: \"10kΩ\""},
      {R"({"a": -20 °C to 110 °C})", "1:7-1:23",
       "`-20 °C to 110 °C` is a value with a unit; write it as text, in double quotation marks: \"-20 °C to "
       "110 °C\""},
      {R"([5 %])", "1:2-1:5",
       "`5 %` is a value with a unit; write it as text, in double quotation marks: \"5 %\""},
  });
}

TEST(Syntax, values_of_other_languages) {
  expect({
      {R"({"a": NaN})", "1:7-1:10",
       "`NaN` is not a JSON value; leave the member out where there is no value"},
      {R"({"a": nan})", "1:7-1:10",
       "`nan` is not a JSON value; leave the member out where there is no value"},
      {R"({"a": -Infinity})", "1:7-1:16",
       "`-Infinity` is not a JSON value; leave the member out where there is no value"},
      {R"({"a": undefined})", "1:7-1:16",
       "`undefined` is not a JSON value; leave the member out where there is no value"},
      {R"({"a": None})", "1:7-1:11",
       "`None` is not a JSON value; leave the member out where there is no value"},
      {R"({"a": True})", "1:7-1:11", "write `true` instead of `True`"},
      {R"({"a": FALSE})", "1:7-1:12", "write `false` instead of `FALSE`"},
  });
}

TEST(Syntax, numbers) {
  expect({
      {"[+1]", "1:2-1:4", "a number has no plus sign before it; write 1"},
      {"[01]", "1:2-1:4", "`01` has a leading zero; write 1"},
      {"[-007.50]", "1:2-1:9", "`-007.50` has a leading zero; write -7.50"},
      {"[00]", "1:2-1:4", "`00` has a leading zero; write 0"},
      {"[.5]", "1:2-1:4", "a digit must stand before the decimal point; write 0.5"},
      {"[-.5]", "1:2-1:5", "a digit must stand before the decimal point; write -0.5"},
      {"[5.]", "1:2-1:4", "`5.` needs a digit behind its decimal point"},
      {"[5.e3]", "1:2-1:6", "`5.e3` needs a digit behind its decimal point"},
      {"[1e]", "1:2-1:4", "`1e` breaks off; digits must follow"},
      {"[1e+]", "1:2-1:5", "`1e+` breaks off; digits must follow"},
      {"[0x1F]", "1:2-1:6", "`0x1F` is a hexadecimal number; JSON has only decimal ones"},
      {"[1.5.5]", "1:2-1:7", "`1.5.5` is not a number of JSON: digits, at most one point and one exponent"},
      {"[1-2]", "1:2-1:5", "`1-2` is not a number of JSON: digits, at most one point and one exponent"},
      {"[-]", "1:2", "`-` is not a number of JSON: digits, at most one point and one exponent"},
      {"[1 000.5]", "1:2-1:9", "no space may stand inside a number; write 1000.5"},
  });
}

TEST(Syntax, comments) {
  const auto message = "JSON has no comments; put the words into a `note`, or into a key that begins with x_";
  expect({
      {"{\n  \"a\": 1, // first\n}", "2:11-2:13", message},
      {"{ /* a */ \"a\": 1 }", "1:3-1:5", message},
      {"# a profile\n{}", "1:1", message},
      {"{}\n// end\n", "2:1-2:3", message},
  });
}

TEST(Syntax, inside_texts) {
  using namespace std::string_view_literals;
  expect({
      {R"({"a": "C:\Users"})", "1:10-1:12",
       "`\\U` is not an escape of JSON; a backslash in a text is written \\\\"},
      {R"({"a": "10 k\Ω"})", "1:12-1:14",
       "`\\Ω` is not an escape of JSON; a backslash in a text is written \\\\"},
      {R"({"a": "\u00b"})", "1:8-1:10", "`\\u` needs four hexadecimal digits, for example \\u00b0"},
      {"{\"a\": \"b\tc\"}", "1:9", "a tab stands inside a text; write a space"},
      {"{\"a\": \"b\x1b[1mc\"}", "1:9", "the control character U+001B stands inside a text; remove it"},
      {"{\"a\": \"b\0c\"}"sv, "1:7-1:9", "this text is cut by a NUL byte; remove the byte"},
  });
}

TEST(Syntax, odd_characters) {
  using namespace std::string_view_literals;
  expect({
      {"{\"a\":\u00A01}", "1:6", "a no-break space (U+00A0) stands here; write a plain space"},
      {"{\"a\":\u200B1}", "1:6", "a zero-width space (U+200B) stands here; write a plain space"},
      {"{}\0"sv, "1:3", "a NUL byte stands here; remove it, or save the file as UTF-8 if it is in UTF-16"},
      {"{\"a\":\f1}", "1:6", "the control character U+000C stands here; remove it"},
      {"<a/>", "1:1",
       "this is XML or HTML, and no JSON; ohmlore convert --from xml --to json reads documents in XML"},
      {"\n <a/>", "2:2",
       "this is XML or HTML, and no JSON; ohmlore convert --from xml --to json reads documents in XML"},
      {"[<a/>]", "1:2", "`<` begins no JSON value; a text needs double quotation marks"},
  });
}

TEST(Syntax, nothing_at_all) {
  expect({
      {"", "1:1-1:1", "the file is empty; a document is one JSON object"},
      {" \n\t\r\n", "1:1-1:1", "the file is empty; a document is one JSON object"},
  });
}

TEST(Syntax, comma_fixes_give_json) {
  for (const std::string text : {"[1, 2, ]", "{\n  \"a\": 1,\n}"}) {
    const auto findings = read_json("t", text).findings;
    ASSERT_EQ(findings[0].fixes.size(), 1u) << text;
    EXPECT_EQ(findings[0].fixes[0].safety, Fix_safety::safe);
    EXPECT_TRUE(read_json("t", mended(text, findings[0].fixes[0])).document.whole()) << text;
  }
  for (const std::string text : {"{\"a\": 1\n \"b\": 2}", "[\"a\" \"b\"]", "[1 2]", "{\"a\" 1}"}) {
    const auto findings = read_json("t", text).findings;
    ASSERT_EQ(findings[0].fixes.size(), 1u) << text;
    EXPECT_EQ(findings[0].fixes[0].safety, Fix_safety::unsafe) << "a quotation mark may be missing instead";
    EXPECT_TRUE(read_json("t", mended(text, findings[0].fixes[0])).document.whole()) << text;
  }
}

TEST(Syntax, only_the_first_error_but_every_encoding_finding) {
  const auto findings =
      read_json("t", "{\"a\": \"\xB0\",\n \"b\": \"\xB5\xB5\",\n \"c\": ,\n \"d\": ,\n \"e\": \"\xFF\"}")
          .findings;
  ASSERT_EQ(findings.size(), 4u);
  EXPECT_EQ(findings[0].message,
            "byte 0xB0 is not UTF-8 here (in Windows-1252 it is `°`); save the file as UTF-8");
  EXPECT_EQ(findings[1].message,
            "byte 0xB5 is not UTF-8 here (in Windows-1252 it is `µ`); save the file as UTF-8");
  EXPECT_EQ(findings[2].rule, "json-syntax");
  EXPECT_EQ(findings[2].region.first.line, 3u);
  EXPECT_EQ(findings[3].message,
            "byte 0xFF is not UTF-8 here (in Windows-1252 it is `ÿ`); save the file as UTF-8");
}

TEST(Syntax, a_file_in_utf_16_is_one_finding) {
  for (const std::string_view mark : {"\xFF\xFE", "\xFE\xFF"}) {
    const auto findings = read_json("t", std::string(mark) + "{\xE9}").findings;
    ASSERT_EQ(findings.size(), 1u);
    EXPECT_EQ(findings[0].rule, "utf8-malformed");
    EXPECT_EQ(findings[0].message, "the file is written in UTF-16; save it as UTF-8");
  }
}

TEST(Syntax, a_byte_order_mark_is_a_warning_with_a_safe_fix) {
  const std::string text = "\xEF\xBB\xBF[]";
  const auto [document, findings] = read_json("t", text);
  EXPECT_TRUE(document.whole());
  ASSERT_GE(findings.size(), 1u);
  EXPECT_EQ(findings[0].rule, "byte-order-mark");
  EXPECT_EQ(findings[0].severity, Severity::warning);
  EXPECT_EQ(findings[0].fixes[0].safety, Fix_safety::safe);
  EXPECT_EQ(mended(text, findings[0].fixes[0]), "[]");
}

// Both are JSON (RFC 8259, sections 6 and 8.2), but no document may hold them: the rest is read on.
TEST(Syntax, half_pairs_and_huge_numbers_are_no_syntax_errors) {
  const std::string text =
      R"({"format": "ohmlore/1.0", "kind": "part", "id": "p", "revision": 1e999, )"
      R"("component": {"kind": "ntc", "name": "a\ud800b\ud801\ud802", "x_n": [-9e999, 5]}})";
  const auto [document, findings] = read_json("t", text);
  EXPECT_TRUE(document.whole());
  std::vector<std::string> found;
  for (const Finding& finding : findings)
    found.push_back(fmt::format("{} {}", finding.rule, finding.message));
  EXPECT_EQ(
      found,
      (std::vector<std::string>{
          "number-out-of-limits this number is beyond 1e308, the most that a number can be",
          "type-wrong `revision` must be a whole number, here it is 1e999; for example 1",
          "text-forbidden-character `\\ud800` is half of a surrogate pair; both halves are needed for one "
          "character",
          "text-forbidden-character `\\ud801` is half of a surrogate pair; both halves are needed for one "
          "character",
          "text-forbidden-character `\\ud802` is half of a surrogate pair; both halves are needed for one "
          "character",
          "number-out-of-limits this number is beyond 1e308, the most that a number can be"}));
  EXPECT_EQ(document.written(document.find("/component/x_n/0")), "-9e999");
  EXPECT_EQ(document.written(document.find("/component/name")), R"("a\ud800b\ud801\ud802")");
  EXPECT_FALSE(read_json("t", "[\"\\ud800\", 1 2]").document.whole()) << "syntax behind it is still checked";
  EXPECT_FALSE(read_json("t", "[1e999, 1 2]").document.whole());
  EXPECT_EQ(read_json("t", "[1e999x]").findings.back().rule, "json-syntax");
}

// "No number, wherever it stands, is beyond 1e308": by what it is, however it is written.
TEST(Syntax, numbers_are_huge_beyond_1e308) {
  const auto places = [](const std::string& number) {
    std::vector<std::string> found;
    for (const Finding& finding : read_json("t", "[5, " + number + "]").findings)
      if (finding.rule == "number-out-of-limits") found.push_back(finding.pointer);
    return found;
  };
  const std::string zeros(308, '0');
  for (const std::string& number :
       {std::string("1e308"), std::string("-1E+308"), std::string("0.001e311"), "1" + zeros,
        "1" + zeros + ".0", std::string("9.99e307"), std::string("0e999"), "1" + zeros + "00e-2",
        std::string("1e-99999999999")})
    EXPECT_TRUE(places(number).empty()) << number;
  for (const std::string& number :
       {std::string("2e308"), std::string("1E309"), std::string("1.1e308"), std::string("-1.8e309"),
        std::string("0.0011e311"), "2" + zeros, "1" + zeros + ".1", std::string("1.000000000000e320"),
        std::string("1e99999999999")})
    EXPECT_EQ(places(number), std::vector<std::string>{"/1"}) << number;
  std::string many = "0";
  for (int i = 0; i < 1000; ++i) many += ", 1.8e309";
  EXPECT_EQ(places(many).size(), 20u) << "as many as of those at which the parser stops";
}

// Keys and what no reader looks into as well (RFC 7493, section 2.1): in UTF-8 it could not be written again.
TEST(Syntax, half_pairs_are_found_wherever_they_stand) {
  const auto found =
      read_json("t", R"([{"x_a\udc00": "\ud83d\ude00"}, "\\udc00", "a\uDFFF\udc00", "\ud800\ud800\udc00"])")
          .findings;
  std::vector<std::string> halves;
  for (const Finding& finding : found)
    if (finding.rule == "text-forbidden-character") halves.push_back(finding.message.substr(0, 8));
  EXPECT_EQ(halves, (std::vector<std::string>{"`\\udc00`", "`\\uDFFF`", "`\\ud800`"}))
      << "the first of each text";
}

TEST(Syntax, the_source_line_goes_with_the_finding) {
  const auto findings = read_json("t", "{\r\n  \"a\": 1,\r\n}\r\n").findings;
  EXPECT_EQ(findings[0].source_line, "  \"a\": 1,");
  EXPECT_EQ(findings[0].source_column, 1u);
}

TEST(Syntax, of_a_long_line_only_what_is_near) {
  std::string text = "[\"";
  for (int i = 0; i < 1000; ++i) text += "Ω";
  text += "\", , \"";
  for (int i = 0; i < 1000; ++i) text += "Ω";
  text += "\"]";
  const auto findings = read_json("t", text).findings;
  const Finding& finding = findings[0];
  EXPECT_EQ(finding.region.first.column, 1006u);
  EXPECT_LE(finding.source_line.size(), 402u);
  EXPECT_EQ(find_invalid_utf8(finding.source_line), std::string_view::npos) << "cut between characters";
  std::size_t offset = 0;
  for (std::uint32_t i = finding.source_column; i < finding.region.first.column; ++i)
    next_code_point(finding.source_line, offset);
  EXPECT_EQ(finding.source_line.substr(offset, 3), ", \"");
}

}
}
