// Whether a schema keeps what another accepts.
#include "ohmlore/compatibility.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <rapidjson/document.h>
#include <rapidjson/pointer.h>
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

#include "ohmlore/publish.h"

namespace ohmlore {
namespace {

std::string said(const Compatibility& result) {
  std::string out = result.problem;
  for (const Narrowing& narrowing : result.narrowings)
    out += narrowing.pointer + ": " + narrowing.message + "\n";
  return out;
}

std::string compare(std::string_view older, std::string_view newer) {
  return said(compare_schemas(older, newer));
}

TEST(Compatibility, FindsNothingBetweenCopies) {
  for (const Document_kind kind : {Document_kind::profile, Document_kind::part, Document_kind::corpus})
    EXPECT_EQ(compare(json_schema(kind), json_schema(kind)), "");
}

TEST(Compatibility, NamesWhatIsNarrower) {
  EXPECT_EQ(compare(R"({"enum": ["a", "b"]})", R"({"enum": ["a"]})"), "/enum: \"b\" was accepted here\n");
  EXPECT_EQ(compare(R"({"maximum": 5})", R"({"maximum": 4})"), "/maximum: maximum 4 instead of 5\n");
  EXPECT_EQ(compare(R"({})", R"({"minLength": 1})"), "/minLength: minLength 1 instead of 0\n");
  EXPECT_EQ(compare(R"({"type": ["string", "null"]})", R"({"type": "string"})"),
            "/type: null was accepted here\n");
  EXPECT_EQ(compare(R"({})", R"({"type": "string"})"), "/type: a type is demanded where none was\n");
  EXPECT_EQ(compare(R"({"const": 5})", R"({"type": "string"})"), "/type: integer was accepted here\n");
  EXPECT_EQ(compare(R"({"enum": ["a", 1.5]})", R"({"enum": ["a", 1.5], "type": "string"})"),
            "/type: number was accepted here\n");
  EXPECT_EQ(compare(R"({"required": ["a"]})", R"({"required": ["a", "b"]})"),
            "/required: `b` must be there, and could be absent\n");
  EXPECT_EQ(compare(R"({"pattern": "^a"})", R"({"pattern": "^b"})"),
            "/pattern: `pattern` is \"^b\", and was \"^a\"\n");
  EXPECT_EQ(compare(R"({})", R"({"not": {}})"), "/not: `not` where there was none\n");
  EXPECT_EQ(compare(R"({"items": {"maximum": 5}})", R"({"items": {"maximum": 4}})"),
            "/items/maximum: maximum 4 instead of 5\n");
  EXPECT_EQ(compare(R"({"properties": {"a": {}}, "additionalProperties": false})",
                    R"({"properties": {}, "additionalProperties": false})"),
            "/properties: `a` was accepted here\n");
  EXPECT_EQ(compare(R"({})", R"({"additionalProperties": false})"),
            "/additionalProperties: refuses everything, where something was accepted\n");
  EXPECT_EQ(compare(R"({})", R"({"properties": {"a": {"type": "string"}}})"),
            "/properties/a/type: a type is demanded where none was\n");
}

TEST(Compatibility, LetsWiderSchemasPass) {
  EXPECT_EQ(compare(R"({"enum": ["a"]})", R"({"enum": ["b", "a"]})"), "");
  EXPECT_EQ(compare(R"({"const": "a"})", R"({"enum": ["a", "b"]})"), "");
  EXPECT_EQ(compare(R"({"type": "integer", "minimum": 1})", R"({"type": "number", "minimum": 0})"), "");
  EXPECT_EQ(compare(R"({"properties": {"a": {}}, "additionalProperties": false})",
                    R"({"properties": {"a": {}, "b": {"type": "string"}}, "additionalProperties": false})"),
            "");
  EXPECT_EQ(compare(R"({"title": "old", "description": "x"})", R"({"title": "new"})"), "");
  EXPECT_EQ(compare("false", R"({"type": "string"})"), "");
  EXPECT_EQ(compare(R"({"type": "string"})", "true"), "");
}

TEST(Compatibility, FollowsReferences) {
  EXPECT_EQ(compare(R"({"$ref": "#/definitions/a", "definitions": {"a": {"maximum": 5}}})",
                    R"({"$ref": "#/definitions/b", "definitions": {"b": {"maximum": 4}}})"),
            "/definitions/b/maximum: maximum 4 instead of 5\n");
  EXPECT_EQ(compare(R"({"maximum": 5})", R"({"$ref": "#/definitions/none"})"),
            "/definitions/none: a reference here cannot be followed\n");
  // A schema that holds itself ends.
  const std::string_view loop =
      R"({"$ref": "#/definitions/a", "definitions": {"a": {"items": {"$ref": "#/definitions/a"}}}})";
  EXPECT_EQ(compare(loop, loop), "");
  const std::string_view self = R"({"$ref": "#"})";
  EXPECT_NE(compare(self, self), "");
}

// A variant as the format publishes it: an open base, and a closed record for each kind.
std::string variant(std::string_view base, std::string_view words, std::string_view branches) {
  return std::string(R"({"type": "object", "required": ["kind"], "properties": {"kind": {"enum": [)") +
         std::string(words) + "]}" + std::string(base) + R"(}, "allOf": [)" + std::string(branches) + "]}";
}
std::string branch(std::string_view kind, std::string_view members) {
  return std::string(
             R"({"if": {"type": "object", "required": ["kind"], "properties": {"kind": {"const": ")") +
         std::string(kind) + R"("}}}, "then": {"properties": {"kind": {"const": ")" + std::string(kind) +
         "\"}" + std::string(members) + R"(}, "additionalProperties": false}})";
}

TEST(Compatibility, FollowsReferencesInWhatItDoesNotCompare) {
  const auto schema = [](std::string_view keywords, std::string_view type) {
    return fmt::format(
        R"({{"definitions": {{"a": {{"type": "{}"}}, "b": {{"$ref": "#/definitions/a"}}}}, {}}})", type,
        keywords);
  };
  constexpr std::string_view any_of = R"("anyOf": [{"$ref": "#/definitions/b"}])";
  EXPECT_EQ(compare(schema(any_of, "number"), schema(any_of, "number")), "");
  EXPECT_EQ(compare(schema(any_of, "number"), schema(any_of, "string")),
            "/anyOf: `anyOf` leads to #/definitions/a, which is not known to be as it was\n");
  constexpr std::string_view items = R"("items": [{"$ref": "#/definitions/b"}])";
  EXPECT_EQ(compare(schema(items, "number"), schema(items, "string")), "/items: a list of schemas differs\n");
  constexpr std::string_view branch =
      R"("allOf": [{"if": {"$ref": "#/definitions/b"}, "then": {"maximum": 5}}])";
  EXPECT_EQ(compare(schema(branch, "number"), schema(branch, "number")), "");
  EXPECT_EQ(compare(schema(branch, "string"), schema(branch, "number")),
            "/allOf/0/then/maximum: maximum 5 where there was none\n");
  // A name that stands in an `$id` is no pointer.
  EXPECT_EQ(compare("{}", R"({"items": {"$ref": "#name"}})"),
            "/items: a reference here cannot be followed\n");
}

TEST(Compatibility, UnderstandsVariants) {
  const std::string old = variant("", R"("a", "b")", branch("a", "") + "," + branch("b", ""));
  // A further kind, and a further member of one kind or of all.
  EXPECT_EQ(compare(old, variant("", R"("a", "b", "c")",
                                 branch("a", "") + "," + branch("b", "") + "," + branch("c", ""))),
            "");
  EXPECT_EQ(compare(old, variant("", R"("a", "b")",
                                 branch("a", R"(, "n": {"type": "string"})") + "," + branch("b", ""))),
            "");
  const std::string_view note = R"(, "note": {"type": "string"})";
  EXPECT_EQ(compare(old, variant(note, R"("a", "b")", branch("a", note) + "," + branch("b", note))), "");
  // The base of a variant with a kind that is open accepted any note.
  const std::string open = variant("", R"("a", "b")", branch("a", ""));
  EXPECT_EQ(compare(open, variant(note, R"("a", "b")", branch("a", note))),
            "/properties/note/type: a type is demanded where none was\n");
  // A kind that is gone, and a member that is gone from one kind.
  EXPECT_EQ(compare(old, variant("", R"("a")", branch("a", ""))),
            "/properties/kind/enum: \"b\" was accepted here\n");
  EXPECT_EQ(compare(variant("", R"("a", "b")", branch("a", note) + "," + branch("b", "")), old),
            "/allOf/0/then/properties: `note` was accepted here\n");
  // A kind that was free and is closed now.
  EXPECT_NE(compare(open, old), "");
}

// The format itself, damaged in ways that a careless change would.
TEST(Compatibility, SeesADamagedFormat) {
  const std::string published = json_schema(Document_kind::profile);
  const auto with = [&](const char* pointer, const char* value) {
    rapidjson::Document schema;
    schema.Parse(published.data(), published.size());
    rapidjson::Document other;
    if (value != nullptr) {
      other.Parse(value);
      rapidjson::Pointer(pointer).Set(schema, other, schema.GetAllocator());
    } else {
      EXPECT_TRUE(rapidjson::Pointer(pointer).Erase(schema)) << pointer;
    }
    rapidjson::StringBuffer buffer;
    rapidjson::Writer<rapidjson::StringBuffer> out(buffer);
    schema.Accept(out);
    return std::string(buffer.GetString(), buffer.GetSize());
  };
  for (const auto& [pointer, value] : std::initializer_list<std::pair<const char*, const char*>>{
           {"/definitions/pin/properties/note", nullptr},
           {"/definitions/connector/properties/ways/maximum", "10"},
           {"/definitions/suspect_board/required", R"(["kind", "note"])"},
           {"/definitions/suspect/properties/kind/enum", R"(["component", "harness", "board", "supply"])"},
           {"/definitions/test/properties/probes/minItems", "3"},
           {"/properties/faults/maxProperties", "10"},
           {"/definitions/model_beta/properties/b_value", "false"}}) {
    const std::string damaged = with(pointer, value);
    EXPECT_NE(compare(published, damaged), "") << pointer;
  }
  EXPECT_EQ(compare(with("/definitions/pin/properties/note", nullptr), published), "");
}

TEST(Compatibility, SaysWhatIsNoSchema) {
  EXPECT_NE(compare_schemas("{", "{}").problem, "");
  EXPECT_NE(compare_schemas("{}", "3").problem, "");
}

// A schema is asked for by whoever submits it: its depth must not cost the stack.
TEST(Compatibility, SaysWhatIsTooDeep) {
  const auto nested = [](int levels) {
    std::string text;
    for (int i = 0; i < levels; ++i) text += R"({"items":)";
    return text + "{}" + std::string(static_cast<std::size_t>(levels), '}');
  };
  EXPECT_EQ(compare_schemas(nested(60), nested(60)).problem, "");
  EXPECT_NE(compare_schemas(nested(100'000), "{}").problem, "");
  EXPECT_NE(compare_schemas("{}", nested(100'000)).problem, "");

  const auto chained = [](int schemas) {
    std::string text = R"({"$ref":"#/definitions/0","definitions":{)";
    for (int i = 0; i < schemas; ++i)
      text += fmt::format(R"("{}":{{"items":{{"$ref":"#/definitions/{}"}}}},)", i, i + 1);
    return text + fmt::format(R"("{}":{{}}}}}})", schemas);
  };
  EXPECT_EQ(compare(chained(400), chained(400)), "");
  EXPECT_NE(compare(chained(20'000), chained(20'000)), "");

  const auto kinds = R"({"required":["kind"],"properties":{"kind":{"const":"a"}},"allOf":[
      {"if":{"required":["kind"],"properties":{"kind":{"const":"a"}}},"then":{"$ref":"#"}}]})";
  EXPECT_EQ(compare(kinds, R"({"properties":{"more":{"type":"string"}}})"),
            "/properties/more/type: a type is demanded where none was\n");

  // Twice into itself: 2^1000 ways, each looked at once.
  const auto twice = R"({"required":["kind"],"properties":{"kind":{"const":"a"}},"allOf":[
      {"if":{"required":["kind"],"properties":{"kind":{"const":"a"}}},"then":{"$ref":"#"}},
      {"if":{"required":["kind"],"properties":{"kind":{"const":"a"}}},"then":{"$ref":"#"}}]})";
  EXPECT_NE(compare(twice, R"({"properties":{"more":{"type":"string"}}})"), "");
}

}
}
