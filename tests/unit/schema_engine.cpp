// The schema engine: what it refuses, where, and in which words; and that no schema can bring it down.
#include <array>
#include <thread>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

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
      "/m: this is refused by the schema, for its keys or as a whole\n");
  EXPECT_EQ(refusals(R"({"properties": {"m": false}})", R"({"m": 1})"),
            "/m: this is refused by the schema, for its keys or as a whole\n");
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
  EXPECT_TRUE(problem(R"({"pattern": "["})").starts_with("the pattern [ is not a regular expression"));
  EXPECT_TRUE(problem(R"({"properties": {"a": {"patternProperties": {"(": {}}}}})")
                  .starts_with("the pattern ( is not a regular expression"));
  EXPECT_EQ(problem(repeated(R"({"pattern": ")", 50'000, '(', R"("})")),
            "a pattern has more than 2048 bytes");
  EXPECT_NE(problem(repeated(R"({"pattern": ")", 2'000, '(', R"("})")), "");
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
            "/a: this is refused by the schema, for its keys or as a whole\n");
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
  EXPECT_EQ(check_schema(any, repeated("\"", 3000, 'a', "\"")).problem,
            "the document holds a text of more than 2048 bytes");
  EXPECT_EQ(check_schema(any, std::string(100, '[') + std::string(100, ']')).problem,
            "the document is nested more than 64 deep");
  EXPECT_EQ(check_schema(any, std::string(100'000, '[') + std::string(100'000, ']')).problem,
            "the document is nested more than 64 deep");
  // The longest text that may meet a pattern, and a pattern that recurses for every character of it.
  const Schema pattern = compile_schema(R"({"pattern": "^(?:[a-z]|[0-9])*$"})");
  EXPECT_TRUE(check_schema(pattern, repeated("\"", 2048, 'a', "\"")).refusals.empty());
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

TEST(Schema_engine_absent, says_so) {
  if (has_schema_engine()) GTEST_SKIP() << "built with a schema engine";
  EXPECT_NE(compile_schema("{}").problem, "");
  EXPECT_NE(check_schema(compile_schema("{}"), "{}").problem, "");
}

}
}
