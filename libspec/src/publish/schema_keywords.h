// The keywords of draft-07, and our own that the engine meets instead of some of them.
#pragma once

#include <algorithm>
#include <iterator>
#include <optional>
#include <string>
#include <string_view>

namespace ohmlore::schemas {

/// What may stand behind a keyword; a map is one of schemas.
enum class Takes {
  anything,
  text,
  texts,
  truth,
  number,
  more_than_0,
  count,
  list,
  types,
  schema,
  schemas,
  schema_or_schemas,
  map,
  dependencies
};

/// On a number, or on how many there are of something.
enum class Of { number, characters, items, members };
enum class Must { at_most, less, at_least, more, multiple };
struct Limit {
  Of of;
  Must must;
};

struct Keyword {
  std::string_view name;
  Takes takes;
  bool in_place = false; ///< its schemas apply to the same value as the schema around it
  std::optional<Limit> limit = {};
};

inline constexpr Keyword keywords[] = {
    {"title", Takes::text},
    {"description", Takes::text},
    {"type", Takes::types},
    {"enum", Takes::list},
    {"const", Takes::anything},
    {"multipleOf", Takes::more_than_0, false, Limit{Of::number, Must::multiple}},
    {"maximum", Takes::number, false, Limit{Of::number, Must::at_most}},
    {"exclusiveMaximum", Takes::number, false, Limit{Of::number, Must::less}},
    {"minimum", Takes::number, false, Limit{Of::number, Must::at_least}},
    {"exclusiveMinimum", Takes::number, false, Limit{Of::number, Must::more}},
    {"maxLength", Takes::count, false, Limit{Of::characters, Must::at_most}},
    {"minLength", Takes::count, false, Limit{Of::characters, Must::at_least}},
    {"pattern", Takes::text},
    {"maxItems", Takes::count, false, Limit{Of::items, Must::at_most}},
    {"minItems", Takes::count, false, Limit{Of::items, Must::at_least}},
    {"uniqueItems", Takes::truth},
    {"maxProperties", Takes::count, false, Limit{Of::members, Must::at_most}},
    {"minProperties", Takes::count, false, Limit{Of::members, Must::at_least}},
    {"required", Takes::texts},
    {"properties", Takes::map},
    {"patternProperties", Takes::map},
    {"additionalProperties", Takes::schema},
    {"propertyNames", Takes::schema},
    {"items", Takes::schema_or_schemas},
    {"additionalItems", Takes::schema},
    {"contains", Takes::schema},
    {"definitions", Takes::map},
    {"dependencies", Takes::dependencies, true},
    {"allOf", Takes::schemas, true},
    {"anyOf", Takes::schemas, true},
    {"oneOf", Takes::schemas, true},
    {"not", Takes::schema, true},
    {"if", Takes::schema, true},
    {"then", Takes::schema, true},
    {"else", Takes::schema, true},
};

inline const Keyword* keyword_named(std::string_view name) {
  const auto* at = std::find_if(std::begin(keywords), std::end(keywords),
                                [&](const Keyword& keyword) { return keyword.name == name; });
  return at == std::end(keywords) ? nullptr : at;
}

/// The keyword of this name that sets a limit, or null.
inline const Keyword* limit_named(std::string_view name) {
  const Keyword* keyword = keyword_named(name);
  return keyword != nullptr && keyword->limit ? keyword : nullptr;
}

/// A schema of the schemas, as far as their keywords stand in the table.
std::string schema_of_schemas();

/// Stands before the names of our own keywords, which no schema of draft-07 has, and before what they tell:
/// the engine tells numbers with six decimals, and reads some of them wrong.
inline constexpr std::string_view own = "ohmlore:";
inline constexpr std::string_view refuses = "refuses";
inline std::string own_name(std::string_view keyword) { return std::string(own).append(keyword); }

}
