// The schema engine: what it refuses, where, and in which words; and that no schema can bring it down.
#include <array>
#include <thread>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "ohmlore/house_schema.h"
#include "ohmlore/publish.h"
#include "ohmlore/schema_engine.h"

namespace ohmlore {
namespace {

class Schema_engine : public testing::Test {
protected:
  void SetUp() override {
    if (!has_schema_engine()) GTEST_SKIP() << "built without a schema engine";
  }
};

// "pointer: message", one a line.
std::string refusals(std::string_view schema_text, std::string_view document) {
  const Schema schema = compile_schema(schema_text);
  EXPECT_EQ(schema.problem, "");
  const Schema_verdict verdict = check_schema(schema, document);
  EXPECT_EQ(verdict.problem, "");
  std::string out;
  for (const Schema_refusal& refusal : verdict.refusals)
    out += refusal.pointer + ": " + refusal.message + '\n';
  return out;
}

std::string problem(std::string_view schema_text) {
  const Schema schema = compile_schema(schema_text);
  EXPECT_FALSE(schema);
  return schema.problem;
}

std::string repeated(std::string_view before, std::size_t count, char c, std::string_view after) {
  std::string out(before);
  out.append(count, c);
  return out.append(after);
}

TEST_F(Schema_engine, names_the_place_and_says_what_is_wrong) {
  EXPECT_EQ(refusals(R"({"required": ["id"]})", R"({})"), ": the schema asks for `id` here\n");
  EXPECT_EQ(refusals(R"({"properties": {"a/b": {"items": {"type": "string"}}}})", R"({"a/b": ["x", 5]})"),
            "/a~1b/1: the schema does not allow a whole number here\n");
  EXPECT_EQ(refusals(R"({"properties": {"a": {}}, "additionalProperties": false})", R"({"a": 1, "b": 2})"),
            "/b: `b` is not a key that the schema allows here\n");
  EXPECT_EQ(refusals(R"({"properties": {"a": {"enum": ["x", "y"]}}})", R"({"a": "z"})"),
            "/a: \"z\" is not one of the values that the schema allows\n");
  EXPECT_EQ(refusals(R"({"properties": {"a": {"const": "x"}}})", R"({"a": "z"})"),
            "/a: \"z\" is not the value that the schema asks for\n");
  EXPECT_EQ(refusals(R"({"properties": {"a": {"pattern": "^[A-Z]$"}}})", R"({"a": "z"})"),
            "/a: \"z\" does not have the form that the schema asks for\n");
  EXPECT_EQ(refusals(R"({"properties": {"a": {"minimum": 1, "maximum": 200}}})", R"({"a": 201})"),
            "/a: 201 must be at most 200\n");
  EXPECT_EQ(refusals(R"({"properties": {"a": {"exclusiveMinimum": 0.5}}})", R"({"a": 0.5})"),
            "/a: 0.5 must be more than 0.5\n");
  EXPECT_EQ(refusals(R"({"properties": {"a": {"minItems": 2}}})", R"({"a": [1]})"),
            "/a: this list must have at least 2 items\n");
  EXPECT_EQ(refusals(R"({"properties": {"a": {"maxProperties": 0}}})", R"({"a": {"b": 1}})"),
            "/a: this object must have at most 0 members\n");
  EXPECT_EQ(refusals(R"({"properties": {"a": {"minLength": 3}}})", R"({"a": "kΩ"})"),
            "/a: \"kΩ\" must have at least 3 characters\n");
}

TEST_F(Schema_engine, reports_every_refusal_once_and_at_its_deepest_place) {
  const std::string_view schema =
      R"({"properties": {"a": {"allOf": [{"$ref": "#/definitions/d"}, {"$ref": "#/definitions/d"}]}},
          "definitions": {"d": {"required": ["k"], "properties": {"n": {"type": "integer"}}}}})";
  EXPECT_EQ(refusals(schema, R"({"a": {"n": "x"}})"),
            "/a/n: the schema does not allow text here\n/a: the schema asks for `k` here\n");
}

TEST_F(Schema_engine, of_alternatives_tells_those_that_came_furthest) {
  const std::string_view schema = R"({"anyOf": [
      {"type": "string"},
      {"type": "object", "required": ["z"], "properties": {"n": {"type": "integer"}}}]})";
  EXPECT_EQ(refusals(schema, R"({"n": "x"})"), "/n: the schema does not allow text here\n");
  EXPECT_EQ(refusals(R"({"oneOf": [{"type": "string"}, {"type": "boolean"}]})", "5"),
            ": 5 fits none of the alternatives of the schema\n");
}

TEST_F(Schema_engine, refusals_that_the_engine_leaves_unexplained_have_a_place) {
  EXPECT_EQ(
      refusals(R"({"properties": {"m": {"propertyNames": {"pattern": "^[a-z]+$"}}}})", R"({"m": {"A": 1}})"),
      "/m/A: as a key: \"A\" does not have the form that the schema asks for\n");
  EXPECT_EQ(refusals(R"({"properties": {"m": false}})", R"({"m": 1})"),
            "/m: `m` is not a key that the schema allows here\n");
  EXPECT_EQ(refusals(R"({"properties": {"m": {"items": false}}})", R"({"m": [1]})"),
            "/m/0: this is refused by the schema as a whole\n");
  EXPECT_EQ(refusals("false", "1"), ": the document is refused by the schema as a whole\n");
}

TEST_F(Schema_engine, one_misplaced_value_in_a_variant_is_one_refusal) {
  const std::string schema = json_schema(Document_kind::part);
  const auto part = [](std::string_view component) {
    return R"({"format": "ohmlore/1.0", "kind": "part", "id": "p", "revision": 1, "component": )" +
           std::string(component) + "}";
  };
  EXPECT_EQ(refusals(schema, part(R"({"kind": "ntc", "name": "s"})")), "");
  EXPECT_EQ(refusals(schema, part("5")), "/component: the schema does not allow a whole number here\n");
  EXPECT_EQ(refusals(schema, part(R"({"name": "s"})")), "/component: the schema asks for `kind` here\n");
  EXPECT_EQ(refusals(schema, part(R"({"kind": "pumpe", "name": "s", "strange": 1})")),
            "/component/kind: \"pumpe\" is not one of the values that the schema allows\n");
  EXPECT_EQ(refusals(schema, part(R"({"kind": "ntc", "name": 5})")),
            "/component/name: the schema does not allow a whole number here\n");
  EXPECT_EQ(refusals(schema, part(R"({"kind": "ntc", "name": "s", "wires": 2})")),
            "/component/wires: `wires` is not a key that the schema allows here\n");
}

TEST_F(Schema_engine, says_why_a_schema_cannot_be_used) {
  EXPECT_EQ(problem("{"), "not JSON at byte 1: Missing a name for object member.");
  EXPECT_EQ(problem("[]"), "a schema is one JSON object");
  EXPECT_EQ(problem(R"({"$schema": "https://json-schema.org/draft/2020-12/schema"})"),
            "it is written for https://json-schema.org/draft/2020-12/schema; this program knows "
            "http://json-schema.org/draft-07/schema#");
  EXPECT_EQ(problem(R"({"$ref": "other.json"})"),
            "`$ref` to other.json leads out of the schema; copy what it names into `definitions`");
  EXPECT_EQ(problem(R"({"items": {"$ref": "#/definitions/x"}})"), "`$ref` to #/definitions/x names nothing");
  EXPECT_EQ(problem(R"({"pattern": "["})"), "the pattern [ is not a regular expression: missing ]: [");
  EXPECT_EQ(problem(R"({"properties": {"a": {"patternProperties": {"(": {}}}}})"),
            "the pattern ( is not a regular expression: missing ): (");
  EXPECT_EQ(problem(repeated(R"({"pattern": ")", 50'000, '(', R"("})")),
            "a pattern has more than 2048 bytes");
  EXPECT_NE(problem(repeated(R"({"pattern": ")", 2'000, '(', R"("})")), "");
  EXPECT_EQ(problem("{\"pattern\": \"a\\u0000b\"}"), "a pattern holds U+0000; write it as \\\\u0000");
  EXPECT_NE(problem(R"({"minLength": "many"})"), "");
  EXPECT_NE(problem(R"({"properties": []})"), "");
}

// Each of these makes the engine alone recurse until the stack ends.
TEST_F(Schema_engine, endless_references_are_problems) {
  const std::string_view endless =
      "its `$ref`s lead back to where they start, without looking at a part of the document between";
  EXPECT_EQ(problem(R"({"$ref": "#"})"), endless);
  EXPECT_EQ(problem(R"({"allOf": [{"$ref": "#"}]})"), endless);
  EXPECT_EQ(problem(R"({"$ref": "#/definitions/a", "definitions":
                        {"a": {"anyOf": [{"$ref": "#/definitions/b"}]}, "b": {"not": {"$ref": "#/definitions/a"}}}})"),
            endless);
  std::string chain = R"({"properties": {"x": {"$ref": "#/definitions/d0"}}, "definitions": {)";
  for (int i = 0; i < 2000; ++i)
    chain += "\"d" + std::to_string(i) + R"(": {"items": {"$ref": "#/definitions/d)" + std::to_string(i + 1) +
             "\"}},";
  EXPECT_EQ(problem(chain + R"("d2000": {}}})"),
            "its schemas are nested, or refer to each other, too deeply");
  std::string nested = "{}";
  for (int i = 0; i < 30; ++i) nested = R"({"not": )" + nested + "}";
  EXPECT_EQ(problem(nested), "more than 16 of its schemas apply to one value");
  std::string deep = "{}";
  for (int i = 0; i < 100; ++i) deep = R"({"items": )" + deep + "}";
  EXPECT_EQ(problem(deep), "it is nested more than 64 deep");
}

TEST_F(Schema_engine, a_schema_may_refer_to_itself_for_parts) {
  const std::string_view tree = R"({"type": "object", "required": ["v"], "properties":
      {"children": {"items": {"allOf": [{"$ref": "#"}]}}}})";
  EXPECT_EQ(refusals(tree, R"({"v": 1, "children": [{"v": 2, "children": []}, {"v": 3}]})"), "");
  EXPECT_EQ(refusals(tree, R"({"v": 1, "children": [{"children": []}, {"v": 3}]})"),
            "/children/0: the schema asks for `v` here\n");
}

// valijson 1.0 alone refuses the first: it takes the schema of the keys for that of the map.
TEST_F(Schema_engine, property_names_hold_behind_a_reference) {
  const std::string_view schema = R"({"properties": {"a": {"$ref": "#/definitions/m"}}, "definitions":
      {"m": {"type": "object", "propertyNames": {"pattern": "^[a-z]$"}}}})";
  EXPECT_EQ(refusals(schema, R"({"a": {"k": 1}})"), "");
  EXPECT_EQ(refusals(schema, R"({"a": {"K": 1}})"),
            "/a/K: as a key: \"K\" does not have the form that the schema asks for\n");
}

// valijson 1.0 alone divides by a `multipleOf` of 0, and takes several of these for schemas that accept all.
TEST_F(Schema_engine, refuses_what_is_no_schema) {
  for (const std::string_view wrong : {R"("required": "title")",
                                       R"("required": [1])",
                                       R"("type": "strin")",
                                       R"("type": [])",
                                       R"("type": 5)",
                                       R"("properties": [])",
                                       R"("properties": {"id": 5})",
                                       R"("minLength": -1)",
                                       R"("minLength": "x")",
                                       R"("pattern": 5)",
                                       R"("enum": "a")",
                                       R"("additionalProperties": "no")",
                                       R"("allOf": {})",
                                       R"("anyOf": [])",
                                       R"("not": [])",
                                       R"("if": 5)",
                                       R"("multipleOf": 0)",
                                       R"("multipleOf": -1)",
                                       R"("multipleOf": "a")",
                                       R"("maximum": "a")",
                                       R"("items": 5)",
                                       R"("items": [5])",
                                       R"("dependencies": [])",
                                       R"("dependencies": {"id": 5})",
                                       R"("contains": [])",
                                       R"("patternProperties": {"^a": 5})",
                                       R"("uniqueItems": "x")",
                                       R"("definitions": {"a": {"type": "wrong"}})"})
    EXPECT_NE(problem(fmt::format("{{{}}}", wrong)).find(" is no schema of draft-07: "), std::string::npos)
        << wrong;
  EXPECT_EQ(problem(R"({"properties": {"revision": {"multipleOf": 0}}})"),
            "what stands at /properties/revision/multipleOf is no schema of draft-07: 0 must be more than 0");
}

TEST_F(Schema_engine, a_description_may_be_long) {
  EXPECT_EQ(compile_schema(repeated("{\"description\": \"", 5000, 'a', "\"}")).problem, "");
}

TEST_F(Schema_engine, formats_are_annotations) {
  EXPECT_EQ(refusals(R"({"properties": {"d": {"format": "date"}}})", R"({"d": {"not": "text"}})"), "");
}

TEST_F(Schema_engine, documents_beyond_the_limits_have_no_verdict) {
  const Schema any = compile_schema("{}");
  EXPECT_EQ(check_schema(any, "{").problem, "not JSON at byte 1: Missing a name for object member.");
  EXPECT_EQ(check_schema(any, R"({"x_a": 0e999})").problem,
            "the number at byte 8 is written larger than the schema engine takes; write it shorter");
  EXPECT_EQ(check_schema(any, std::string(100, '[') + std::string(100, ']')).problem,
            "the document is nested more than 64 deep");
  EXPECT_EQ(check_schema(any, std::string(100'000, '[') + std::string(100'000, ']')).problem,
            "the document is nested more than 64 deep");
}

bool fits(std::string_view pattern, std::string_view text) {
  return refusals(fmt::format(R"({{"pattern": "{}"}})", pattern), fmt::format("\"{}\"", text)).empty();
}

// With std::regex the first goes on for ever, and the others end the stack.
TEST_F(Schema_engine, patterns_take_time_in_proportion_to_the_text_and_no_stack) {
  EXPECT_FALSE(
      fits("^([A-Za-z]+ ?)+$", "Larch boards with a long title that ends in what is asked for, nearly!"));
  EXPECT_TRUE(fits("^" + std::string(30, '(') + "a|b" + std::string(30, ')') + "*$", std::string(2040, 'a')));
  EXPECT_TRUE(fits("^(?:[a-z]|[0-9])*$", std::string(100'000, 'a')));
}

TEST_F(Schema_engine, patterns_count_characters) {
  EXPECT_TRUE(fits("^[0-9.]+ k?[ΩK]$", "10 kΩ"));
  EXPECT_TRUE(fits("^.{5}$", "10 kΩ"));
  EXPECT_FALSE(fits("^.{6}$", "10 kΩ"));
  EXPECT_TRUE(fits(R"(^\\u00d6$)", "Ö"));
  EXPECT_TRUE(fits(R"(^\\uD83D\\uDD25$)", "🔥"));
  EXPECT_TRUE(fits(R"(^\\u{1F525}$)", "🔥"));
  EXPECT_TRUE(fits("^[^a]$", "Ω"));
  EXPECT_EQ(refusals(R"({"patternProperties": {"^.$": {"type": "string"}}})", R"({"Ω": 1, "ΩΩ": 1})"),
            "/Ω: the schema does not allow a whole number here\n");
}

TEST_F(Schema_engine, patterns_are_those_of_ecmascript) {
  EXPECT_TRUE(fits(R"(^\\d{2,3}\\s\\w+\\b\\/[\\w\\-.]$)", "123 ab_/-"));
  EXPECT_TRUE(fits("^(?:ab|c)+$", "abcab"));
  EXPECT_TRUE(fits("^(?<year>[0-9]{4})$", "2026"));
  EXPECT_TRUE(fits(R"(^\\s[\\s]$)", "\u00A0\u2003"));
  EXPECT_FALSE(fits(R"(\\S|[^\\s])", "\u00A0\u2003"));
  EXPECT_TRUE(fits(R"(^a\\_\\Ω[\\b]?$)", "a_Ω"));
  EXPECT_TRUE(fits("^[^]$", "\\n"));
  EXPECT_FALSE(fits("[]", "a"));
  EXPECT_TRUE(fits("^[[:alpha:]]$", "a"));
  EXPECT_TRUE(fits("a.c", "xabcx")); // not anchored
  EXPECT_FALSE(fits("a.c", "a\\u2028c"));
  EXPECT_FALSE(fits("^a$", "a\\n"));
  EXPECT_FALSE(fits("^a$", "b\\na"));
}

TEST_F(Schema_engine, patterns_may_look_ahead_from_the_beginning) {
  EXPECT_TRUE(fits("^(?!ab|c)[a-c]+$", "acb"));
  EXPECT_FALSE(fits("^(?!ab|c)[a-c]+$", "abc"));
  EXPECT_FALSE(fits("^(?!ab|c)[a-c]+$", "ca"));
  EXPECT_TRUE(fits("^(?=.*[)|])(?!.*(?:x))", "a)"));
  EXPECT_FALSE(fits("^(?=.*[)|])(?!.*(?:x))", "a"));
  EXPECT_FALSE(fits("^(?=.*[)|])(?!.*(?:x))", "a|x"));
}

TEST_F(Schema_engine, says_what_of_a_pattern_is_not_supported) {
  const auto problem_with = [](std::string_view pattern) {
    return problem(fmt::format(R"({{"pattern": "{}"}})", pattern));
  };
  const std::string at_beginning = "which is supported at the beginning only, as `^(?!…)` or `^(?=…)`";
  EXPECT_EQ(problem_with("a(?!x)"), "the pattern a(?!x) cannot be used: `(?!` looks around, " + at_beginning);
  EXPECT_EQ(problem_with("^(?!a)b|c"),
            "the pattern ^(?!a)b|c cannot be used: `(?!` looks around, " + at_beginning);
  EXPECT_EQ(problem_with("(?<=a)b"),
            "the pattern (?<=a)b cannot be used: `(?<=` looks around, " + at_beginning);
  EXPECT_EQ(problem_with(R"((a)\\1)"),
            R"(the pattern (a)\1 cannot be used: `\1` refers back, which is not supported)");
  EXPECT_EQ(problem_with(R"(\\Aa)"), R"(the pattern \Aa cannot be used: `\A` is not supported)");
  EXPECT_EQ(problem_with(R"(\\ud800)"), R"(the pattern \ud800 cannot be used: `\ud800` is half a character)");
  EXPECT_EQ(problem_with(R"(\\u12)"),
            R"(the pattern \u12 cannot be used: after `\u` stand four hexadecimal digits)");
}

TEST_F(Schema_engine, every_key_too_many_is_told) {
  EXPECT_EQ(
      refusals(R"({"properties": {"a": {}}, "additionalProperties": false})",
               R"({"x": 1, "a": 1, "y": {"z": 1}})"),
      "/x: `x` is not a key that the schema allows here\n/y: `y` is not a key that the schema allows here\n");
  EXPECT_EQ(refusals(R"({"patternProperties": {"^x": false}})", R"({"x1": 1, "a": 1})"),
            "/x1: `x1` is not a key that the schema allows here\n");
  EXPECT_EQ(
      refusals(R"({"propertyNames": {"pattern": "^[a-z]$", "maxLength": 2}})", R"({"A": 1, "a": 1, "B": 1})"),
      "/A: as a key: \"A\" does not have the form that the schema asks for\n"
      "/B: as a key: \"B\" does not have the form that the schema asks for\n");
  EXPECT_EQ(
      refusals(
          R"({"items": {"propertyNames": {"$ref": "#/definitions/key"}}, "definitions": {"key": {"enum": ["a"]}}})",
          R"([{"a": 1}, {"b": 1}])"),
      "/1/b: as a key: \"b\" is not one of the values that the schema allows\n");
  EXPECT_EQ(refusals(R"({"not": {"additionalProperties": false}})", R"({"x": 1})"), "");
}

// The engine stops at the first key that a pattern refuses, and takes the others for additional.
TEST_F(Schema_engine, keys_that_a_pattern_names_are_not_additional) {
  EXPECT_EQ(refusals(R"({"patternProperties": {"^x": {"type": "string"}}, "additionalProperties": false})",
                     R"({"x1": 1, "x2": "a"})"),
            "/x1: the schema does not allow a whole number here\n");
}

TEST_F(Schema_engine, references_lead_wherever_there_is_a_schema) {
  EXPECT_EQ(
      problem(R"({"properties": {"revision": {"$ref": "#/defs/a"}}, "defs": {"a": {"multipleOf": 0}}})"),
      "what stands at /defs/a/multipleOf is no schema of draft-07: 0 must be more than 0");
  EXPECT_EQ(problem(R"({"$ref": "#/x", "x": {"y": {"type": "wrong"}, "$ref": "#/x/y"}})"),
            "what stands at /x/y/type is no schema of draft-07: \"wrong\" is not one of the values that the "
            "schema allows");
  EXPECT_EQ(problem(R"({"properties": {"a": {"$ref": "#/const"}}, "const": {"format": "x"}})"),
            "`$ref` to #/const names nothing");
  EXPECT_EQ(problem(R"({"$ref": "#/a/0", "a": 5})"), "`$ref` to #/a/0 names nothing");
  for (const std::string_view key : {"a", "a$b", "a:b", "Ω", "a b", "100%", "~0", "%41"})
    for (const std::string_view holder : {"definitions", "$defs"}) {
      std::string reference;
      for (const char c : key)
        reference += c == '~' ? "~0" : c == '%' && key == "%41" ? "%25" : std::string(1, c);
      const std::string schema =
          fmt::format(R"({{"items": {{"$ref": "#/{0}/{1}"}}, "{0}": {{"{2}": {{"type": "string"}}}}}})",
                      holder, reference, key);
      EXPECT_EQ(refusals(schema, "[1]"), "/0: the schema does not allow a whole number here\n") << schema;
    }
  EXPECT_EQ(
      refusals(R"({"items": {"$ref": "#/definitions/%CE%A9"}, "definitions": {"Ω": {"type": "string"}}})",
               "[1]"),
      "/0: the schema does not allow a whole number here\n");
  EXPECT_EQ(refusals(R"({"items": {"$ref": "#/anyOf/1"}, "anyOf": [true, {"type": "string"}]})", "[1]"),
            "/0: the schema does not allow a whole number here\n");
}

TEST_F(Schema_engine, references_that_fan_out_are_problems) {
  std::string schema = R"({"$ref": "#/definitions/d0", "definitions": {)";
  for (int depth = 0; depth < 7; ++depth) {
    schema += fmt::format(R"("d{}": {{"allOf": [)", depth);
    for (int i = 0; i < 20; ++i)
      schema += fmt::format(R"({}{{"$ref": "#/definitions/d{}"}})", i ? ", " : "", depth + 1);
    schema += "]}, ";
  }
  EXPECT_EQ(problem(schema + R"("d7": {"maxProperties": 1000}}})"),
            "its schemas, by way of `$ref`, apply more than 10000 times to one value");
}

TEST_F(Schema_engine, references_that_double_at_each_level_end) {
  const Schema schema = compile_schema(
      R"({"allOf": [{"properties": {"a": {"$ref": "#"}}}, {"properties": {"a": {"$ref": "#"}}}]})");
  std::string document = "1";
  for (int i = 0; i < 60; ++i) document = R"({"a": )" + document + "}";
  EXPECT_EQ(check_schema(schema, document).problem,
            "its schemas apply too often to the values of this document");
  EXPECT_EQ(check_schema(schema, R"({"a": {"a": 1}})").problem, "");
}

// Sentences of the engine hold words of the schema and of the document.
TEST_F(Schema_engine, words_of_others_change_no_message) {
  EXPECT_EQ(refusals(R"({"additionalProperties": false})", R"({"x_child schema #": 1})"),
            "/x_child schema #: `x_child schema #` is not a key that the schema allows here\n");
  EXPECT_EQ(refusals(R"({"required": ["no fewer than anyOf constraint"]})", "{}"),
            ": the schema asks for `no fewer than anyOf constraint` here\n");
  EXPECT_EQ(refusals(R"({"required": ["a'b: 'c"]})", "{}"), ": the schema asks for `a'b: 'c` here\n");
  EXPECT_EQ(refusals(R"({"properties": {"Expected number: 'x": {"type": "string"}}})",
                     R"({"Expected number: 'x": 1})"),
            "/Expected number: 'x: the schema does not allow a whole number here\n");
}

TEST_F(Schema_engine, limits_are_told_as_they_are_written) {
  EXPECT_EQ(refusals(R"({"minLength": 100.0})", "\"a\""), ": \"a\" must have at least 100 characters\n");
  EXPECT_EQ(refusals(R"({"minLength": 18446744073709551615})", "\"a\""),
            ": \"a\" must have at least 1.8446744073709552e+19 characters\n");
  EXPECT_EQ(refusals(R"({"maximum": 0.0000001})", "1"), ": 1 must be at most 1e-07\n");
  EXPECT_EQ(refusals(R"({"minimum": 0})", "18446744073709551615"), "");
  EXPECT_EQ(refusals(R"({"multipleOf": 5})", "7"), ": 7 must be a multiple of 5\n");
  EXPECT_EQ(refusals(R"({"multipleOf": 0.5})", "1.5"), "");
  for (const std::string_view cents : {"0", "0.07", "4.35", "-19.99", "1234.56", "99999999.99"})
    EXPECT_EQ(refusals(R"({"multipleOf": 0.01})", cents), "");
  EXPECT_EQ(refusals(R"({"multipleOf": 0.01})", "19.995"), ": 19.995 must be a multiple of 0.01\n");
  EXPECT_EQ(refusals(R"({"multipleOf": 1})", "1e-20"), ": 1e-20 must be a multiple of 1\n");
  EXPECT_EQ(refusals(R"({"divisibleBy": 5, "disallow": "string"})", "7"), "");
  EXPECT_NE(problem(R"({"minLength": 1.5})"), "");
}

TEST_F(Schema_engine, says_what_is_asked_for_in_words) {
  EXPECT_EQ(refusals(R"({"not": {"type": "string"}})", "\"a\""), ": \"a\" is what the schema excludes\n");
  EXPECT_EQ(refusals(R"({"contains": {"type": "string"}})", "[1]"),
            ": no item of this list is what the schema asks for\n");
  EXPECT_EQ(refusals(R"({"dependencies": {"a": ["b"]}})", R"({"a": 1})"),
            ": the schema asks for `b` here, for the sake of another key\n");
  EXPECT_EQ(refusals(R"({"uniqueItems": true})", "[1, 2, 1]"),
            ": the items 0 and 2 of this list (the first is 0) are the same\n");
  EXPECT_EQ(refusals(R"({"items": [true], "additionalItems": false})", "[1, 2]"),
            ": this list has more items than the schema allows\n");
  EXPECT_EQ(refusals(R"({"oneOf": [{"type": "string"}, {"maxLength": 2}]})", "\"a\""),
            ": \"a\" fits more than one alternative of the schema\n");
}

TEST_F(Schema_engine, items_are_the_same_by_their_value) {
  const auto same = [](std::string_view items) {
    return refusals(R"({"uniqueItems": true})", fmt::format("[{}]", items));
  };
  for (const char* unlike : {R"("1", 1)", "1, true", "0, false, null", R"("", null)", "[], {}", "[1], [[1]]",
                             "[1, 2], [2, 1]", R"({"a": 1}, {"a": 2})", R"({"a": 1}, {"b": 1})",
                             R"(["a,b"], ["a", "b"])", R"(["1:a"], ["a"])", "0.1, 0.10000000000000002"})
    EXPECT_EQ(same(unlike), "") << unlike;
  for (const char* like :
       {"1, 1.0", "0, -0.0", "100, 1e2", R"("a", "\u0061")", R"({"a": 1, "b": [2]}, {"b": [2.0], "a": 1})"})
    EXPECT_EQ(same(like), ": the items 0 and 1 of this list (the first is 0) are the same\n") << like;
  EXPECT_EQ(same("3, 2, 1, 2, 3"), ": the items 1 and 3 of this list (the first is 0) are the same\n");
  EXPECT_EQ(refusals(R"({"uniqueItems": false})", "[1, 1]"), "");
  EXPECT_EQ(refusals(R"({"uniqueItems": true})", R"("aa")"), "");
}

TEST_F(Schema_engine, a_value_is_one_of_a_list_by_its_value) {
  const auto refused = [](std::string_view values, std::string_view value) {
    return refusals(fmt::format(R"({{"enum": {}}})", values), value);
  };
  const std::string_view list = R"([1, "1", null, [2, 3], {"a": {"b": 4, "c": []}}])";
  for (const char* one : {"1", "1.0", R"("\u0031")", "null", "[2, 3e0]", R"({"a": {"c": [], "b": 4.0}})"})
    EXPECT_EQ(refused(list, one), "") << one;
  for (const char* other : {"2", "true", R"("")", "[3, 2]", "[2]", "{}", R"({"a": {"b": 4}})"})
    EXPECT_NE(refused(list, other), "") << other;
  EXPECT_EQ(refused(R"(["a"])", R"(["a"])"), ": this list is not one of the values that the schema allows\n");
}

// A document whose list took hours and all memory must not stop a gate.
TEST_F(Schema_engine, of_a_long_list_the_first_refusals_are_told) {
  const auto list = [](const char* item) {
    std::string text = "[";
    for (int i = 0; i < 100000; ++i) text.append(item).append(",");
    return text + "0]";
  };
  EXPECT_EQ(refusals(R"({"uniqueItems": true})", list("\"a\"")),
            ": the items 0 and 1 of this list (the first is 0) are the same\n");
  const Schema_verdict verdict = check_schema(compile_schema(R"({"items": {"enum": ["b"]}})"), list("\"a\""));
  ASSERT_EQ(verdict.refusals.size(), 1000);
  EXPECT_TRUE(verdict.cut);
  EXPECT_EQ(verdict.refusals.front().pointer, "/0");
  EXPECT_EQ(verdict.refusals.front().message, "\"a\" is not one of the values that the schema allows");
  EXPECT_EQ(
      verdict.refusals.back().message,
      "\"a\" is not one of the values that the schema allows (what else the schema refuses may be left out)");
}

TEST_F(Schema_engine, one_schema_serves_many_threads) {
  const Schema schema = compile_schema(R"({"properties": {"a": {"pattern": "^[A-Z]$"}}})");
  std::vector<std::thread> threads;
  std::array<int, 4> refused{};
  for (int& count : refused)
    threads.emplace_back([&schema, &count] {
      for (int i = 0; i < 200; ++i)
        count +=
            static_cast<int>(check_schema(schema, i % 2 ? R"({"a": "A"})" : R"({"a": "b"})").refusals.size());
    });
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(refused, (std::array<int, 4>{100, 100, 100, 100}));
}

TEST_F(Schema_engine, a_house_schema_asks_for_something) {
  const auto problem_of = [](std::string_view text) { return read_house_schema("h.json", text).problem; };
  const std::string_view nothing =
      "h.json: it checks nothing: its root has none of the keywords with which draft-07 asks for something";
  EXPECT_EQ(problem_of(R"({"required": ["title"]})"), "");
  EXPECT_EQ(problem_of(R"({"$ref": "#/definitions/a", "definitions": {"a": {}}})"), "");
  EXPECT_EQ(problem_of(R"({"const": null})"), "");
  EXPECT_EQ(problem_of("{}"), nothing);
  EXPECT_EQ(problem_of("true"), "h.json: a schema is one JSON object");
  EXPECT_EQ(problem_of(R"({"requird": ["title"], "title": "Of the house", "definitions": {}})"), nothing);
  EXPECT_EQ(problem_of(R"({"format": "ohmlore/1.0", "kind": "profile", "required": ["title"]})"),
            "h.json: it is a document of ohmlore/1.0, and no JSON Schema");
}

TEST_F(Schema_engine, the_demand_behind_a_refused_key_is_found) {
  const auto demanded = [](std::string_view schema, std::string_view profile_text) {
    const House_schema house = read_house_schema("h.json", schema);
    EXPECT_EQ(house.problem, "");
    const Document profile = read_json("p.json", profile_text).document;
    std::vector<Schema_refusal> refused = check_schema(house.schema, profile_text).refusals;
    if (refused.size() != 1) return std::string("not one refusal");
    return std::string(house.document.written(demanded_at(house, profile, refused.front())));
  };
  EXPECT_EQ(demanded(R"({"propertyNames": {"maxLength": 1}})", R"({"ab": 1})"), R"({"maxLength": 1})");
  EXPECT_EQ(demanded(R"({"additionalProperties": false})", R"({"ab": 1})"), "false");
  EXPECT_EQ(demanded(R"({"properties": {"a": {"not": {"const": 1}}}})", R"({"a": 1})"), R"({"const": 1})");
}

TEST(Schema_engine_absent, says_so) {
  if (has_schema_engine()) GTEST_SKIP() << "built with a schema engine";
  EXPECT_NE(compile_schema("{}").problem, "");
  EXPECT_NE(check_schema(compile_schema("{}"), "{}").problem, "");
}

}
}
