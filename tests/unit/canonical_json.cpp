// format.md, "Canonical form".
#include "ohmlore/canonical_json.h"

#include <gtest/gtest.h>

using namespace ohmlore;

namespace {

std::string canonical(std::string_view text, Prefixes prefixes = Prefixes::as_written) {
  const Read_result read = read_json("x", text);
  EXPECT_TRUE(read.document.whole());
  return canonical_json(read.document, prefixes);
}

// In a member of one's own anything may stand.
std::string own(std::string_view value) {
  std::string text = R"({"x_a":)";
  text += value;
  text += '}';
  std::string form = canonical(text);
  const std::string_view head = "{\n  \"x_a\": ", tail = "\n}\n";
  EXPECT_TRUE(form.starts_with(head) && form.ends_with(tail)) << form;
  return form.substr(head.size(), form.size() - head.size() - tail.size());
}

std::string respelt(std::string_view written, Prefixes prefixes,
                    Dimension dimension = Dimension::resistance) {
  return canonical_spelling(written, Quantity_grammar::quantity, dimension, prefixes);
}

std::string letters(std::size_t n) {
  std::string text(n, 'a');
  text.front() = text.back() = '"';
  return text;
}

}

// Bytes: "UTF-8 without byte order mark; lines end in LF, the last one too."
TEST(Canonical_form, has_no_mark_and_ends_its_lines) {
  EXPECT_EQ(canonical("\xEF\xBB\xBF{ \"x_a\" :\r\n1 }"), "{\n  \"x_a\": 1\n}\n");
}

// Order: "The members of a record stand in the order of its table. Behind them stand those that the table
// does not have, in the order that they had. So do the entries of a map and the items of a list."
TEST(Canonical_form, orders_the_members_of_records_alone) {
  EXPECT_EQ(canonical(R"({
    "x_z": { "b": 1, "a": 2 }, "tests": {}, "id": "larch", "x_a": 3,
    "connectors": { "X2": { "ways": 2, "label": "X2" }, "X1": { "x_": 0, "label": "X1" } },
    "kind": "profile", "format": "ohmlore/1.0", "appliance": { "models": ["b", "a"], "maker": "Orrinvale" }
  })"),
            R"({
  "format": "ohmlore/1.0",
  "kind": "profile",
  "id": "larch",
  "appliance": {"maker": "Orrinvale", "models": ["b", "a"]},
  "connectors": {
    "X2": {"label": "X2", "ways": 2},
    "X1": {"label": "X1", "x_": 0}
  },
  "tests": {},
  "x_z": {"b": 1, "a": 2},
  "x_a": 3
}
)");
}
TEST(Canonical_form, keeps_what_a_newer_minor_version_brings) {
  EXPECT_EQ(canonical(R"({"later":{"b":1.50,"a":null},"kind":"part","format":"ohmlore/1.7","id":"p"})"),
            R"({
  "format": "ohmlore/1.7",
  "kind": "part",
  "id": "p",
  "later": {"b": 1.50, "a": null}
}
)");
}
TEST(Canonical_form, orders_variants_by_the_table_of_their_kind) {
  EXPECT_EQ(
      canonical(
          R"({"format":"ohmlore/1.0","kind":"part","component":{"model":{"b_value":"3977K","at":"25degC",
    "resistance":"10K","kind":"beta"},"kind":"ntc"}})"),
      R"({
  "format": "ohmlore/1.0",
  "kind": "part",
  "component": {"kind": "ntc", "model": {"kind": "beta", "resistance": "10 kΩ", "at": "25 °C", "b_value": "3977 K"}}
}
)");
}

// Texts: "escape `"`, `\` and control characters, as RFC 8785, section 3.2.2.2 has them, and nothing else."
// The first text is the example of RFC 8785, section 3.2.4, "string", with the escapes of its
// section 3.2.2.2.
TEST(Canonical_form, escapes_what_must_be) {
  EXPECT_EQ(own(R"("\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/")"),
            "\"€$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"");
  EXPECT_EQ(own(R"("\b\t\n\f\r\u0000\u001F\u007f")"), "\"\\b\\t\\n\\f\\r\\u0000\\u001f\x7F\"");
  EXPECT_EQ(own(R"({"\u0041":1})"), "{\"A\": 1}");
}

// Numbers: "stay as they are; the whole number -0 is 0."
TEST(Canonical_form, keeps_numbers) {
  EXPECT_EQ(own("[1.0, -0, 1E+05, 0.10, 123456789012345678901234567890]"),
            "[1.0, -0, 1E+05, 0.10, 123456789012345678901234567890]");
  EXPECT_EQ(canonical(R"({"format":"ohmlore/1.0","kind":"corpus","meter":{"counts":-0}})"),
            "{\n  \"format\": \"ohmlore/1.0\",\n  \"kind\": \"corpus\",\n  \"meter\": {\"counts\": 0}\n}\n");
}

// Layout: "A list or an object stands on one line where that line has at most 160 columns, indentation and
// key included and a comma behind it left out." `  "x_a": ["…"]` has 11 columns beside the text.
TEST(Canonical_form, fills_a_line_of_160_columns) {
  const std::string fits = letters(149), longer = letters(150);
  EXPECT_EQ(own("[" + fits + "]"), "[" + fits + "]");
  EXPECT_EQ(own("[" + longer + "]"), "[\n    " + longer + "\n  ]");
  EXPECT_EQ(canonical("{\"x_a\":[" + fits + "],\"x_b\":1}"),
            "{\n  \"x_a\": [" + fits + "],\n  \"x_b\": 1\n}\n")
      << "the comma is left out";
  EXPECT_EQ(own(letters(300)), letters(300)) << "a text stays whole";
  std::string wide = fits;
  wide.replace(1, 1, "Ω");
  EXPECT_EQ(own("[" + wide + "]"), "[" + wide + "]") << "columns are characters";
}
// "It always does so in the document's own object, and in whatever holds two objects or more side by side,
// itself or further inside."
TEST(Canonical_form, gives_objects_side_by_side_lines_of_their_own) {
  EXPECT_EQ(canonical("{}"), "{}\n");
  EXPECT_EQ(own("{}"), "{}");
  EXPECT_EQ(own("[ ]"), "[]");
  EXPECT_EQ(own(R"([{"a":{"b":[1,[2]]}}])"), R"([{"a": {"b": [1, [2]]}}])");
  EXPECT_EQ(own(R"([{"a":1},2,{}])"), "[\n    {\"a\": 1},\n    2,\n    {}\n  ]");
  EXPECT_EQ(own(R"({"m":[{"a":1},{"a":2}]})"),
            "{\n    \"m\": [\n      {\"a\": 1},\n      {\"a\": 2}\n    ]\n  }");
}

TEST(Canonical_form, is_none_of_what_is_not_whole) {
  EXPECT_EQ(canonical_json(read_json("x", "{ \"a\": ").document), "");
  EXPECT_EQ(canonical_json(read_json("x", "").document), "");
}

TEST(Prefixes, si_takes_them_away_where_the_digits_reach) {
  EXPECT_EQ(respelt("15.250 kΩ", Prefixes::si), "15250 Ω");
  EXPECT_EQ(respelt("15.2500 kΩ", Prefixes::si), "15250.0 Ω");
  EXPECT_EQ(respelt("0.470 kΩ", Prefixes::si), "470 Ω");
  EXPECT_EQ(respelt("0.001 kΩ", Prefixes::si), "1 Ω");
  EXPECT_EQ(respelt("0.0001 kΩ", Prefixes::si), "0.1 Ω");
  EXPECT_EQ(respelt("4.7 kΩ", Prefixes::si), "4.7 kΩ");
  EXPECT_EQ(respelt("4k7", Prefixes::si), "4.7 kΩ");
  EXPECT_EQ(respelt("10 kΩ", Prefixes::si), "10 kΩ");
  EXPECT_EQ(respelt("350 mΩ", Prefixes::si), "0.350 Ω");
  EXPECT_EQ(respelt("-0.5 kΩ", Prefixes::si), "-0.5 kΩ");
  EXPECT_EQ(respelt("2 µF", Prefixes::si, Dimension::capacitance), "0.000002 F");
  EXPECT_EQ(respelt("5 min", Prefixes::si, Dimension::time), "5 min");
  EXPECT_EQ(respelt("20 °C", Prefixes::si, Dimension::temperature), "20 °C");
  EXPECT_EQ(respelt("0 kΩ", Prefixes::si), "0 kΩ");
}
TEST(Prefixes, engineering_leaves_one_to_three_digits_before_the_point) {
  EXPECT_EQ(respelt("15250 Ω", Prefixes::engineering), "15.250 kΩ");
  EXPECT_EQ(respelt("999 Ω", Prefixes::engineering), "999 Ω");
  EXPECT_EQ(respelt("1000 Ω", Prefixes::engineering), "1.000 kΩ");
  EXPECT_EQ(respelt("2200 kΩ", Prefixes::engineering), "2.200 MΩ");
  EXPECT_EQ(respelt("0.470 kΩ", Prefixes::engineering), "470 Ω");
  EXPECT_EQ(respelt("0.47 kΩ", Prefixes::engineering), "0.47 kΩ") << "470 Ω would claim a digit more";
  EXPECT_EQ(respelt("0.350 Ω", Prefixes::engineering), "0.350 Ω") << "mΩ is taken for MΩ";
  EXPECT_EQ(respelt("0.000470 kΩ", Prefixes::engineering), "0.470 Ω");
  EXPECT_EQ(respelt("350 mΩ", Prefixes::engineering), "350 mΩ");
  EXPECT_EQ(respelt("0.001000 MΩ", Prefixes::engineering), "1.000 kΩ");
  EXPECT_EQ(respelt("0047 kΩ", Prefixes::engineering), "0047 kΩ") << "zeros before are no size";
  for (const char* kelvin : {"0.300 K", "30 mK"})
    EXPECT_EQ(respelt(kelvin, Prefixes::engineering, Dimension::temperature_difference), kelvin);
  EXPECT_EQ(respelt("1500 mΩ", Prefixes::engineering), "1.500 Ω");
  EXPECT_EQ(respelt("0.150 A", Prefixes::engineering, Dimension::current), "150 mA");
  EXPECT_EQ(respelt("0.0000047 F", Prefixes::engineering, Dimension::capacitance), "4.7 µF");
  EXPECT_EQ(respelt("0.00 kΩ", Prefixes::engineering), "0.00 kΩ");
}
TEST(Prefixes, hold_for_each_value_of_a_range_or_tolerance) {
  EXPECT_EQ(canonical_spelling("950 Ω to 1050 Ω", Quantity_grammar::range, Dimension::resistance,
                               Prefixes::engineering),
            "950 Ω to 1.050 kΩ");
  EXPECT_EQ(canonical_spelling("+0.100 kΩ -0.05 kΩ", Quantity_grammar::tolerance, Dimension::resistance,
                               Prefixes::si),
            "+100 Ω -0.05 kΩ");
}
