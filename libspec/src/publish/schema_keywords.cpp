#include "publish/schema_keywords.h"

#include <fmt/format.h>

namespace ohmlore::schemas {
namespace {

constexpr std::string_view definitions = R"({
    "schemas": { "type": "array", "minItems": 1, "items": { "$ref": "#" } },
    "map": { "type": "object", "additionalProperties": { "$ref": "#" } },
    "count": { "type": "number", "multipleOf": 1, "minimum": 0 },
    "texts": { "type": "array", "items": { "type": "string" }, "uniqueItems": true },
    "type": { "enum": ["null", "boolean", "object", "array", "number", "string", "integer"] }
  })";

constexpr std::string_view schema_of(Takes takes) {
  switch (takes) {
  case Takes::anything: return "true";
  case Takes::text: return R"({ "type": "string" })";
  case Takes::texts: return R"({ "$ref": "#/definitions/texts" })";
  case Takes::truth: return R"({ "type": "boolean" })";
  case Takes::number: return R"({ "type": "number" })";
  case Takes::more_than_0: return R"({ "type": "number", "exclusiveMinimum": 0 })";
  case Takes::count: return R"({ "$ref": "#/definitions/count" })";
  case Takes::list: return R"({ "type": "array" })";
  case Takes::types:
    return R"({
      "if": { "type": "array" },
      "then": { "items": { "$ref": "#/definitions/type" }, "minItems": 1, "uniqueItems": true },
      "else": { "$ref": "#/definitions/type" }
    })";
  case Takes::schema: return R"({ "$ref": "#" })";
  case Takes::schemas: return R"({ "$ref": "#/definitions/schemas" })";
  case Takes::schema_or_schemas:
    return R"({
      "if": { "type": "array" }, "then": { "$ref": "#/definitions/schemas" }, "else": { "$ref": "#" }
    })";
  case Takes::map: return R"({ "$ref": "#/definitions/map" })";
  case Takes::dependencies:
    return R"({
      "type": "object",
      "additionalProperties": {
        "if": { "type": "array" }, "then": { "$ref": "#/definitions/texts" }, "else": { "$ref": "#" }
      }
    })";
  }
  return "true";
}

}

// What draft-07 says of its own keywords (JSON Schema Validation, draft-handrews-json-schema-validation-01,
// section 6). The engine takes some of what is no schema for one that accepts everything, and divides by a
// `multipleOf` of 0.
std::string schema_of_schemas() {
  std::string properties;
  for (const Keyword& keyword : keywords)
    properties +=
        fmt::format("{}\"{}\": {}", properties.empty() ? "" : ", ", keyword.name, schema_of(keyword.takes));
  return fmt::format(R"({{ "definitions": {}, "type": ["object", "boolean"], "properties": {{ {} }} }})",
                     definitions, properties);
}

}
