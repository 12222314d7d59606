// The one file that knows valijson. Its results name no places and repeat each refusal on every level above
// it; what leaves this file has a JSON Pointer, the deepest refusals only, and our words.
#include "ohmlore/schema_engine.h"

#include "ohmlore/description.h"
#include "ohmlore/text.h"

#if OHMLORE_SCHEMA_ENGINE

#if !defined(VALIJSON_USE_EXCEPTIONS) || VALIJSON_USE_EXCEPTIONS != 1
#error "Define VALIJSON_USE_EXCEPTIONS as 1: without it a bad schema ends the program"
#endif
#include <stdexcept>
#include <valijson/adapters/rapidjson_adapter.hpp> // before any header of RapidJSON

#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include <algorithm>
#include <array>
#include <mutex>
#include <regex>
#include <span>
#include <unordered_map>
#include <utility>

#include <fmt/format.h>
#include <rapidjson/document.h>
#include <rapidjson/error/en.h>
#include <rapidjson/pointer.h>
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

namespace ohmlore {

struct Compiled_schema {
  valijson::Schema schema;
  // A validator keeps the patterns that it has compiled, and serves one check at a time: idle ones wait here.
  mutable std::mutex mutex;
  mutable std::vector<std::unique_ptr<valijson::Validator>> idle;
};

namespace {

class Borrowed_validator {
public:
  explicit Borrowed_validator(const Compiled_schema& schema) : schema_(schema) {
    const std::lock_guard lock(schema.mutex);
    if (schema.idle.empty()) {
      validator_ = std::make_unique<valijson::Validator>();
    } else {
      validator_ = std::move(schema.idle.back());
      schema.idle.pop_back();
    }
  }
  ~Borrowed_validator() {
    const std::lock_guard lock(schema_.mutex);
    schema_.idle.push_back(std::move(validator_));
  }
  Borrowed_validator(const Borrowed_validator&) = delete;
  Borrowed_validator& operator=(const Borrowed_validator&) = delete;
  valijson::Validator* operator->() const { return validator_.get(); }

private:
  const Compiled_schema& schema_;
  std::unique_ptr<valijson::Validator> validator_;
};

using Json = rapidjson::Value;

constexpr unsigned parse_flags = rapidjson::kParseIterativeFlag | rapidjson::kParseValidateEncodingFlag;
constexpr int most_chained = 256; // schemas inside or behind each other; the engine recurses over them
constexpr int most_in_place = 16; // of those, schemas for one and the same value

std::string_view view(const Json& text) { return {text.GetString(), text.GetStringLength()}; }

// Members as spans: RapidJSON's own iterators compare in a way that C++20 finds ambiguous.
std::span<Json::Member> members(Json& object) {
  return {object.ObjectEmpty() ? nullptr : &*object.MemberBegin(), object.MemberCount()};
}
std::span<const Json::Member> members(const Json& object) {
  return {object.ObjectEmpty() ? nullptr : &*object.MemberBegin(), object.MemberCount()};
}
const Json* find(const Json& object, std::string_view key) {
  for (const Json::Member& member : members(object))
    if (view(member.name) == key) return &member.value;
  return nullptr;
}
Json* find(Json& object, std::string_view key) { return const_cast<Json*>(find(std::as_const(object), key)); }

void parse(std::string_view text, rapidjson::Document& document) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  document.Parse<parse_flags>(text.data(), text.size());
}

std::string parse_problem(const rapidjson::Document& document) {
  return fmt::format("not JSON at byte {}: {}", document.GetErrorOffset(),
                     rapidjson::GetParseError_En(document.GetParseError()));
}

bool deeper_than(const Json& value, unsigned most) {
  if (!value.IsObject() && !value.IsArray()) return false;
  if (most == 0) return true;
  if (value.IsArray())
    return std::any_of(value.Begin(), value.End(),
                       [&](const Json& item) { return deeper_than(item, most - 1); });
  const std::span all = members(value);
  return std::any_of(all.begin(), all.end(),
                     [&](const Json::Member& member) { return deeper_than(member.value, most - 1); });
}

// std::regex recurses over the text that it searches.
bool has_long_text(const Json& value) {
  if (value.IsString()) return value.GetStringLength() > most_text;
  if (value.IsArray()) return std::any_of(value.Begin(), value.End(), has_long_text);
  if (!value.IsObject()) return false;
  const std::span all = members(value);
  return std::any_of(all.begin(), all.end(), [](const Json::Member& member) {
    return has_long_text(member.name) || has_long_text(member.value);
  });
}

// ---- the schema, looked at before the engine sees it

enum class Holds { schema, list, map };
struct Keyword {
  std::string_view name;
  Holds holds;
  bool in_place; // applies to the same value as the schema around it
};
constexpr std::array keywords = {
    Keyword{"properties", Holds::map, false},
    Keyword{"patternProperties", Holds::map, false},
    Keyword{"additionalProperties", Holds::schema, false},
    Keyword{"propertyNames", Holds::schema, false},
    Keyword{"items", Holds::schema, false},
    Keyword{"items", Holds::list, false},
    Keyword{"additionalItems", Holds::schema, false},
    Keyword{"contains", Holds::schema, false},
    Keyword{"definitions", Holds::map, false},
    Keyword{"dependencies", Holds::map, true},
    Keyword{"allOf", Holds::list, true},
    Keyword{"anyOf", Holds::list, true},
    Keyword{"oneOf", Holds::list, true},
    Keyword{"not", Holds::schema, true},
    Keyword{"if", Holds::schema, true},
    Keyword{"then", Holds::schema, true},
    Keyword{"else", Holds::schema, true},
};

// Calls `visit(schema, in_place)` for each schema that stands directly in another.
template <class Visit>
void each_inner(Json& schema, Visit visit) {
  auto take = [&](Json& value, bool in_place) {
    if (value.IsObject()) visit(value, in_place);
  };
  for (const Keyword& keyword : keywords) {
    Json* value = find(schema, keyword.name);
    if (value == nullptr) continue;
    if (keyword.holds == Holds::schema)
      take(*value, keyword.in_place);
    else if (keyword.holds == Holds::list && value->IsArray())
      for (Json& item : value->GetArray()) take(item, keyword.in_place);
    else if (keyword.holds == Holds::map && value->IsObject())
      for (Json::Member& entry : members(*value)) take(entry.value, keyword.in_place);
  }
}

// Rewrites what the engine gets wrong, without a change of meaning. Formats: it would check three, and throw
// where the value is no text. The schema of `propertyNames`: it is taken for the schema around it where a
// `$ref` leads to that one; behind a `$ref` of its own it is not.
class Rewriter {
public:
  explicit Rewriter(rapidjson::Document& root) : memory_(root.GetAllocator()) {
    rewrite(root);
    if (!names_.Empty()) root.AddMember(Json(key, memory_), names_, memory_);
  }

private:
  void rewrite(Json& schema) {
    schema.RemoveMember("format");
    each_inner(schema, [&](Json& inner, bool) { rewrite(inner); });
    Json* names = find(schema, "propertyNames");
    if (names == nullptr || !names->IsObject()) return;
    Json reference(rapidjson::kObjectType);
    reference.AddMember("$ref", Json(fmt::format("#/{}/{}", key, names_.Size()).c_str(), memory_), memory_);
    names_.PushBack(*names, memory_);
    *names = reference;
  }

  static constexpr const char* key = "ohmlore_property_names";
  rapidjson::Document::AllocatorType& memory_;
  Json names_{rapidjson::kArrayType};
};

class Inspector {
public:
  explicit Inspector(rapidjson::Document& root) : root_(root) {}

  // Empty where the engine can safely work with the schema.
  std::string problem() {
    walk(root_, 0);
    for (Json* schema : seen_) height(*schema);
    return problem_;
  }

private:
  // Every schema that the engine will meet, and how deep it recurses on the way.
  void walk(Json& schema, int chained) {
    if (!problem_.empty()) return;
    if (chained > most_chained) return fail("its schemas are nested, or refer to each other, too deeply");
    if (!heights_.emplace(&schema, unknown).second) return;
    seen_.push_back(&schema);
    if (const Json* reference = find(schema, "$ref")) {
      if (Json* target = resolve(*reference)) walk(*target, chained + 1);
      return;
    }
    check_patterns(schema);
    each_inner(schema, [&](Json& inner, bool) { walk(inner, chained + 1); });
  }

  // How many schemas, this one included, look at one value before any looks at a part of it.
  int height(Json& schema) {
    int& known = heights_[&schema];
    if (known == open)
      fail("its `$ref`s lead back to where they start, without looking at a part of the document between");
    if (known != unknown || !problem_.empty()) return known;
    known = open;
    int highest = 0;
    if (const Json* reference = find(schema, "$ref")) {
      if (Json* target = resolve(*reference)) highest = height(*target);
    } else {
      each_inner(schema, [&](Json& inner, bool in_place) {
        if (in_place) highest = std::max(highest, height(inner));
      });
    }
    if (highest >= most_in_place)
      fail(fmt::format("more than {} of its schemas apply to one value", most_in_place));
    return known = highest + 1;
  }

  Json* resolve(const Json& reference) {
    if (!reference.IsString()) {
      fail("a `$ref` is not text");
      return nullptr;
    }
    const std::string_view text = view(reference);
    if (!text.starts_with('#')) {
      fail(fmt::format("`$ref` to {} leads out of the schema; copy what it names into `definitions`",
                       printable(text)));
      return nullptr;
    }
    const rapidjson::Pointer pointer(text.data(), text.size());
    Json* target = pointer.IsValid() ? pointer.Get(root_) : nullptr;
    if (target == nullptr) fail(fmt::format("`$ref` to {} names nothing", printable(text)));
    return target != nullptr && target->IsObject() ? target : nullptr;
  }

  void check_patterns(const Json& schema) {
    if (const Json* pattern = find(schema, "pattern"); pattern && pattern->IsString())
      check_pattern(view(*pattern));
    if (const Json* map = find(schema, "patternProperties"); map && map->IsObject())
      for (const Json::Member& entry : members(*map)) check_pattern(view(entry.name));
  }

  void check_pattern(std::string_view pattern) {
    if (pattern.size() > most_text) return fail(fmt::format("a pattern has more than {} bytes", most_text));
    try {
      std::regex compiled(pattern.begin(), pattern.end());
    } catch (const std::regex_error& error) {
      fail(fmt::format("the pattern {} is not a regular expression: {}", printable(pattern), error.what()));
    }
  }

  void fail(std::string problem) {
    if (problem_.empty()) problem_ = std::move(problem);
  }

  rapidjson::Document& root_;
  std::string problem_;
  static constexpr int unknown = -1, open = 0;
  std::vector<Json*> seen_;
  std::unordered_map<const Json*, int> heights_;
};

std::string draft_problem(const Json& schema) {
  const Json* draft = find(schema, "$schema");
  if (draft == nullptr) return {};
  if (!draft->IsString()) return "`$schema` is not text";
  const std::string_view name = view(*draft);
  if (name.find("json-schema.org/draft-07/schema") != std::string_view::npos) return {};
  return fmt::format("it is written for {}; this program knows http://json-schema.org/draft-07/schema#",
                     printable(name));
}

// ---- what the engine says, in our words

struct Place {
  std::vector<std::string> keys;
  bool below(const Place& other) const { // or the same
    return keys.size() >= other.keys.size() && std::equal(other.keys.begin(), other.keys.end(), keys.begin());
  }
  std::string pointer() const {
    std::string out;
    for (const std::string& key : keys) out += '/' + pointer_token(key);
    return out;
  }
};

// The engine writes "[key]" for members and items alike; the document tells them apart, and a pointer
// writes them alike too.
Place place_of(const std::vector<std::string>& context) {
  Place place;
  for (std::size_t i = 1; i < context.size(); ++i) // the first is the root
    place.keys.push_back(context[i].substr(1, context[i].size() - 2));
  return place;
}

const Json* value_at(const Json& root, const Place& place) {
  const Json* at = &root;
  for (const std::string& key : place.keys) {
    if (at->IsObject()) {
      at = find(*at, key);
      if (at == nullptr) return nullptr;
    } else if (at->IsArray()) {
      const std::size_t index = std::stoul(key);
      if (index >= at->Size()) return nullptr;
      at = &(*at)[static_cast<rapidjson::SizeType>(index)];
    } else {
      return nullptr;
    }
  }
  return at;
}

std::string shown(const Json* value) {
  constexpr std::size_t longest = 40;
  if (value == nullptr) return "this";
  if (value->IsObject()) return "this object";
  if (value->IsArray()) return "this list";
  rapidjson::StringBuffer buffer;
  rapidjson::Writer<rapidjson::StringBuffer> writer(buffer);
  value->Accept(writer);
  std::string text(buffer.GetString(), buffer.GetSize());
  if (text.size() <= longest) return printable(text);
  std::size_t end = longest;
  while (end > 0 && utf8_length(text, end) == 0) --end;
  return printable(text.substr(0, end)) + "…";
}

std::string_view kind_of(const Json* value) {
  if (value == nullptr) return "this";
  switch (value->GetType()) {
  case rapidjson::kNullType: return "null";
  case rapidjson::kFalseType:
  case rapidjson::kTrueType: return "true or false";
  case rapidjson::kObjectType: return "an object";
  case rapidjson::kArrayType: return "a list";
  case rapidjson::kStringType: return "text";
  case rapidjson::kNumberType: return value->IsInt64() || value->IsUint64() ? "a whole number" : "a number";
  }
  return "this";
}

// "… 'x'." gives x, "… 12 …" gives 12.
std::string quoted(const std::string& text) {
  const std::size_t begin = text.find('\'', text.find(": '") == std::string::npos ? 0 : text.find(": '"));
  const std::size_t end = text.rfind('\'');
  return begin == std::string::npos || end <= begin ? std::string() : text.substr(begin + 1, end - begin - 1);
}
std::string number_in(const std::string& text) {
  const std::size_t begin = text.find_first_of("-0123456789");
  const std::size_t end = text.find_first_not_of("-.0123456789", begin);
  std::string number = begin == std::string::npos ? "" : text.substr(begin, end - begin);
  // std::to_string writes six decimals.
  if (number.find('.') != std::string::npos) {
    number.erase(number.find_last_not_of('0') + 1);
    if (number.ends_with('.')) number.pop_back();
  }
  return number;
}

// One error of the engine. `step` is set where it only says that something at a deeper place was refused.
struct Error {
  Place place;
  std::string message;
  std::string_view keyword; // that refused it
  bool step = false;
  bool choice = false; // anyOf, oneOf: what the alternatives refused stands before it
};

Error read_error(const Json& root, const valijson::ValidationResults::Error& raw) {
  Error error{place_of(raw.context), {}, {}, false, false};
  const std::string& text = raw.description;
  const Json* value = value_at(root, error.place);
  auto says = [&](std::string_view words) { return text.find(words) != std::string::npos; };
  if (says("associated with property name")) {
    error.step = true;
    error.place.keys.push_back(quoted(text));
  } else if (says("Failed to validate item #")) {
    error.step = true;
    if (!says("corresponding item schema")) error.place.keys.push_back(number_in(text));
  } else if (says("additional properties schema") || says("child schema #") || says("conditional schema") ||
             says("dependent schema") || says("associated with pattern")) {
    error.step = true;
  } else if (says("anyOf constraint") || says("oneOf constraint")) {
    error.choice = true;
    error.keyword = says("anyOf") ? "anyOf" : "oneOf";
    error.message = fmt::format("{} fits none of the alternatives of the schema", shown(value));
  } else if (says("exactly one child schema")) {
    error.keyword = "oneOf";
    error.message = fmt::format("{} fits more than one alternative of the schema", shown(value));
  } else if (says("Missing required property")) {
    error.keyword = "required";
    error.message = fmt::format("the schema asks for `{}` here", printable(quoted(text)));
  } else if (says("Object contains a property")) {
    error.keyword = "additionalProperties";
    error.place.keys.push_back(quoted(text));
    error.message =
        fmt::format("`{}` is not a key that the schema allows here", printable(error.place.keys.back()));
  } else if (says("not permitted by 'type'")) {
    error.keyword = "type";
    error.message = fmt::format("the schema does not allow {} here", kind_of(value));
  } else if (says("'pattern' constraint")) {
    error.keyword = "pattern";
    error.message = fmt::format("{} does not have the form that the schema asks for", shown(value));
  } else if (says("any enum values")) {
    error.keyword = "enum";
    error.message = fmt::format("{} is not one of the values that the schema allows", shown(value));
  } else if (says("'const' constraint")) {
    error.keyword = "const";
    error.message = fmt::format("{} is not the value that the schema asks for", shown(value));
  } else if (says("Expected number")) {
    const std::string_view relation = says("less than or equal")      ? "at most"
                                      : says("greater than or equal") ? "at least"
                                      : says("less than")             ? "less than"
                                                                      : "more than";
    error.keyword = says("less than or equal")      ? "maximum"
                    : says("greater than or equal") ? "minimum"
                    : says("less than")             ? "exclusiveMaximum"
                                                    : "exclusiveMinimum";
    error.message = fmt::format("{} must be {} {}", shown(value), relation, number_in(text));
  } else if (says("no fewer than") || says("no more than")) {
    struct Counted {
      std::string_view what, least, most;
    };
    const Counted counted = says("elements")     ? Counted{"items", "minItems", "maxItems"}
                            : says("properties") ? Counted{"members", "minProperties", "maxProperties"}
                                                 : Counted{"characters", "minLength", "maxLength"};
    const bool too_few = says("no fewer than");
    error.keyword = too_few ? counted.least : counted.most;
    error.message = fmt::format("{} must have {} {} {}", shown(value), too_few ? "at least" : "at most",
                                number_in(text), counted.what);
  } else {
    error.message = fmt::format("{} is refused by the schema: {}", shown(value), printable(text));
  }
  return error;
}

class Refusals {
public:
  void add(Error error) {
    if (error.choice) keep_deepest_below(error);
    if (!error.step && !error.choice) {
      for (const Error& known : errors_)
        if (known.place.keys == error.place.keys && known.message == error.message) return;
    }
    errors_.push_back(std::move(error));
  }

  std::vector<Schema_refusal> take() {
    std::vector<Schema_refusal> out;
    auto explained = [&](const Error& step) {
      return std::any_of(errors_.begin(), errors_.end(), [&](const Error& other) {
        return &other != &step && other.place.below(step.place) &&
               (!other.step || other.place.keys.size() > step.place.keys.size());
      });
    };
    for (const Error& error : errors_) {
      if (error.step && explained(error)) continue;
      Schema_refusal refusal{error.place.pointer(), error.message, error.keyword};
      if (error.step) refusal.message = "this is refused by the schema, for its keys or as a whole";
      if (std::none_of(out.begin(), out.end(), [&](const Schema_refusal& known) {
            return known.pointer == refusal.pointer && known.message == refusal.message;
          }))
        out.push_back(std::move(refusal));
    }
    return out;
  }

private:
  // Alternatives complain each for itself. Those that came furthest say most; where none came further than
  // the choice itself, the choice says it all.
  void keep_deepest_below(Error& choice) {
    std::size_t deepest = choice.place.keys.size();
    for (const Error& error : errors_)
      if (!error.step && error.place.below(choice.place))
        deepest = std::max(deepest, error.place.keys.size());
    std::erase_if(errors_, [&](const Error& error) {
      return error.place.below(choice.place) &&
             (error.place.keys.size() < deepest || deepest == choice.place.keys.size());
    });
    choice.step = deepest > choice.place.keys.size();
  }

  std::vector<Error> errors_;
};

}

bool has_schema_engine() { return true; }

// What draft-07 says of its own keywords (JSON Schema Validation, draft-handrews-json-schema-validation-01,
// section 6). The engine takes some of what is no schema for one that accepts everything, and divides by a
// `multipleOf` of 0.
static constexpr std::string_view schema_of_schemas = R"({
  "definitions": {
    "schemas": { "type": "array", "minItems": 1, "items": { "$ref": "#" } },
    "map": { "type": "object", "additionalProperties": { "$ref": "#" } },
    "count": { "type": "integer", "minimum": 0 },
    "texts": { "type": "array", "items": { "type": "string" }, "uniqueItems": true },
    "type": { "enum": ["null", "boolean", "object", "array", "number", "string", "integer"] }
  },
  "type": ["object", "boolean"],
  "properties": {
    "title": { "type": "string" }, "description": { "type": "string" },
    "type": {
      "if": { "type": "array" },
      "then": { "items": { "$ref": "#/definitions/type" }, "minItems": 1, "uniqueItems": true },
      "else": { "$ref": "#/definitions/type" }
    },
    "enum": { "type": "array" },
    "multipleOf": { "type": "number", "exclusiveMinimum": 0 },
    "maximum": { "type": "number" }, "exclusiveMaximum": { "type": "number" },
    "minimum": { "type": "number" }, "exclusiveMinimum": { "type": "number" },
    "maxLength": { "$ref": "#/definitions/count" }, "minLength": { "$ref": "#/definitions/count" },
    "pattern": { "type": "string" },
    "items": {
      "if": { "type": "array" }, "then": { "$ref": "#/definitions/schemas" }, "else": { "$ref": "#" }
    },
    "additionalItems": { "$ref": "#" }, "contains": { "$ref": "#" },
    "maxItems": { "$ref": "#/definitions/count" }, "minItems": { "$ref": "#/definitions/count" },
    "uniqueItems": { "type": "boolean" },
    "maxProperties": { "$ref": "#/definitions/count" }, "minProperties": { "$ref": "#/definitions/count" },
    "required": { "$ref": "#/definitions/texts" },
    "properties": { "$ref": "#/definitions/map" }, "patternProperties": { "$ref": "#/definitions/map" },
    "additionalProperties": { "$ref": "#" }, "propertyNames": { "$ref": "#" },
    "dependencies": {
      "type": "object",
      "additionalProperties": {
        "if": { "type": "array" }, "then": { "$ref": "#/definitions/texts" }, "else": { "$ref": "#" }
      }
    },
    "definitions": { "$ref": "#/definitions/map" },
    "if": { "$ref": "#" }, "then": { "$ref": "#" }, "else": { "$ref": "#" }, "not": { "$ref": "#" },
    "allOf": { "$ref": "#/definitions/schemas" },
    "anyOf": { "$ref": "#/definitions/schemas" },
    "oneOf": { "$ref": "#/definitions/schemas" }
  }
})";

static Schema built(rapidjson::Document& document) {
  Schema result;
  if (document.IsObject()) {
    Rewriter{document};
    result.problem = Inspector(document).problem();
    if (!result.problem.empty()) return result;
  }
  try {
    auto compiled = std::make_shared<Compiled_schema>();
    valijson::SchemaParser(valijson::SchemaParser::kDraft7)
        .populateSchema(valijson::adapters::RapidJsonAdapter(document), compiled->schema);
    result.compiled = std::move(compiled);
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception& error) {
    result.problem = printable(error.what());
  }
  return result;
}

static Schema_verdict verdict_on(const rapidjson::Document& document, const Compiled_schema& schema) {
  Schema_verdict verdict;
  try {
    // Most documents are accepted, and without results to fill the engine is faster.
    const valijson::adapters::RapidJsonAdapter adapter(document);
    const Borrowed_validator validator(schema);
    if (validator->validate(schema.schema, adapter, nullptr)) return verdict;
    valijson::ValidationResults results;
    validator->validate(schema.schema, adapter, &results);
    Refusals refusals;
    valijson::ValidationResults::Error error;
    while (results.popError(error)) refusals.add(read_error(document, error));
    verdict.refusals = refusals.take();
    // Refused without a word: by the schema `false`, or by the keys of the document.
    if (verdict.refusals.empty())
      verdict.refusals.push_back({"", "the document is refused by the schema as a whole", {}});
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception& error) {
    verdict.problem = printable(error.what());
  }
  return verdict;
}

static std::string misuse_problem(const rapidjson::Document& document) {
  static const Schema schema = [] {
    rapidjson::Document known;
    parse(schema_of_schemas, known);
    return built(known);
  }();
  const Schema_verdict verdict = verdict_on(document, *schema.compiled);
  if (!verdict.problem.empty() || verdict.refusals.empty()) return verdict.problem;
  const Schema_refusal& first = verdict.refusals.front();
  return fmt::format("what stands at {} is no schema of draft-07: {}",
                     first.pointer.empty() ? "its root" : printable(first.pointer), first.message);
}

Schema compile_schema(std::string_view text) {
  Schema result;
  rapidjson::Document document;
  parse(text, document);
  if (document.HasParseError())
    result.problem = parse_problem(document);
  else if (!document.IsObject() && !document.IsBool())
    result.problem = "a schema is one JSON object";
  else if (deeper_than(document, most_depth))
    result.problem = fmt::format("it is nested more than {} deep", most_depth);
  else if (document.IsObject())
    result.problem = draft_problem(document);
  if (result.problem.empty()) result.problem = misuse_problem(document);
  return result.problem.empty() ? built(document) : result;
}

Schema_verdict check_schema(const Schema& schema, std::string_view text) {
  Schema_verdict verdict;
  if (!schema) {
    verdict.problem = "there is no schema to check against: " + schema.problem;
    return verdict;
  }
  rapidjson::Document document;
  parse(text, document);
  if (document.HasParseError())
    verdict.problem = parse_problem(document);
  else if (deeper_than(document, most_depth))
    verdict.problem = fmt::format("the document is nested more than {} deep", most_depth);
  else if (has_long_text(document))
    verdict.problem = fmt::format("the document holds a text of more than {} bytes", most_text);
  return verdict.problem.empty() ? verdict_on(document, *schema.compiled) : verdict;
}

}

#else

namespace ohmlore {

struct Compiled_schema {};

bool has_schema_engine() { return false; }

Schema compile_schema(std::string_view) {
  return {nullptr, "this build has no schema engine: configure it with OHMLORE_SCHEMA_ENGINE=ON"};
}

Schema_verdict check_schema(const Schema& schema, std::string_view) { return {{}, schema.problem}; }

}

#endif
