// A schema accepts at least what another does if each of its keywords does (draft-07: keywords are joined by
// "and", but for additionalProperties, which looks at its neighbours, and then, which needs its if).
#include "ohmlore/compatibility.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <set>

#include <fmt/format.h>
#include <rapidjson/pointer.h>

#include "ohmlore/description.h"
#include "ohmlore/text.h"
#include "publish/schema_json.h"

namespace ohmlore {
namespace {

using schemas::Json;
using schemas::json_of;
using schemas::view;

// How far schemas may lead into each other by `$ref`.
constexpr int most_compared_within = 1000;

const Json* find(const Json& object, std::string_view key) {
  return object.IsObject() ? schemas::find(object, key) : nullptr;
}

bool is_annotation(std::string_view key) {
  constexpr std::string_view annotations[] = {"$schema",     "$id",      "$comment", "title",
                                              "description", "examples", "default",  "definitions"};
  return std::find(std::begin(annotations), std::end(annotations), key) != std::end(annotations);
}

// True of a schema that says nothing.
bool accepts_all(const Json& schema) {
  if (schema.IsBool()) return schema.GetBool();
  if (!schema.IsObject()) return false;
  return std::all_of(schema.MemberBegin(), schema.MemberEnd(),
                     [](const auto& member) { return is_annotation(view(member.name)); });
}

struct Place {
  const Json* schema = nullptr;
  std::string pointer;

  Place at(std::string_view key) const {
    const Json* held = find(*schema, key);
    return {held, fmt::format("{}/{}", pointer, pointer_token(key))};
  }
  Place at(rapidjson::SizeType index) const {
    return {&(*schema)[index], fmt::format("{}/{}", pointer, index)};
  }
};

// What a `$ref` names in its document; null where it names nothing there.
const Json* referred(std::string_view target, const Json& root) {
  if (!target.starts_with('#')) return nullptr;
  const rapidjson::Pointer pointer(target.data() + 1, target.size() - 1);
  return pointer.IsValid() ? pointer.Get(root) : nullptr;
}

class Comparison {
public:
  Comparison(const Json& older, const Json& newer, std::vector<Narrowing>& narrowings)
      : older_(older), newer_(newer), narrowings_(narrowings) {}

  void schema(Place older, Place newer);

private:
  void keywords(Place older, const Place& newer);
  void types(const Place& older, const Place& newer);
  void words(const Place& older, const Place& newer);
  void bounds(const Place& older, const Place& newer);
  void required(const Place& older, const Place& newer);
  void properties(const Place& older, const Place& newer);
  bool refuses_key(Place place, std::string_view key, int within = 0);
  bool is_closed_to(const Place& place, std::string_view key, int within);
  void branches(const Place& older, const Place& newer);
  void branch(const Place& older, const Place& newer, const Place& older_home);
  void held(const Place& older, const Place& newer, std::string_view key);
  void others(const Place& older, const Place& newer);
  std::string changed_reference(const Json& value) const;

  void report(const Place& place, std::string message) {
    if (reported_.insert(place.pointer + message).second)
      narrowings_.push_back({place.pointer, std::move(message)});
  }
  // Follows references, which stand alone (in draft-07 what stands beside one is ignored).
  bool follow(Place& place, const Json& root);

  const Json& older_;
  const Json& newer_;
  std::vector<Narrowing>& narrowings_;
  std::set<std::pair<const Json*, const Json*>> compared_;
  std::set<std::string> reported_;
  std::map<std::pair<const Json*, std::string_view>, bool> refused_; ///< what refuses_key has been asked
  int within_ = 0; ///< of how many schemas the one that is compared is a part
};

bool Comparison::follow(Place& place, const Json& root) {
  for (int steps = 0; steps < 64; ++steps) {
    const Json* reference = place.schema == nullptr ? nullptr : find(*place.schema, "$ref");
    if (reference == nullptr) return place.schema != nullptr;
    const std::string_view target = reference->IsString() ? view(*reference) : std::string_view();
    const Json* held = referred(target, root);
    if (held == nullptr && !target.starts_with("#/")) return false; // no place that could be named
    place = {held, std::string(target.substr(1))};
  }
  return false;
}

void Comparison::schema(Place older, Place newer) {
  if (!follow(newer, newer_) || !follow(older, older_)) {
    report(newer, "a reference here cannot be followed");
    return;
  }
  if (!compared_.insert({older.schema, newer.schema}).second) return;
  if (within_ == most_compared_within) {
    report(newer, fmt::format("references lead more than {} schemas deep to here, which is not compared",
                              most_compared_within));
    return;
  }
  ++within_;
  keywords(older, newer);
  --within_;
}

void Comparison::keywords(Place older, const Place& newer) {
  if (accepts_all(*newer.schema) || (older.schema->IsBool() && !older.schema->GetBool())) return;
  if (newer.schema->IsBool()) {
    report(newer, "refuses everything, where something was accepted");
    return;
  }
  if (!newer.schema->IsObject()) {
    report(newer, "is no schema");
    return;
  }
  static const Json empty(rapidjson::kObjectType);
  if (!older.schema->IsObject()) older.schema = &empty;
  types(older, newer);
  words(older, newer);
  bounds(older, newer);
  required(older, newer);
  properties(older, newer);
  branches(older, newer);
  held(older, newer, "items");
  held(older, newer, "propertyNames");
  others(older, newer);
}

std::vector<std::string_view> types_of(const Json& schema) {
  const Json* type = find(schema, "type");
  std::vector<std::string_view> types;
  if (type == nullptr) return types;
  if (type->IsString()) types.push_back(view(*type));
  if (type->IsArray())
    for (const Json& one : type->GetArray())
      if (one.IsString()) types.push_back(view(one));
  return types;
}

std::string_view type_of(const Json& value) {
  if (value.IsNumber()) return std::trunc(value.GetDouble()) == value.GetDouble() ? "integer" : "number";
  return value.IsNull()     ? "null"
         : value.IsBool()   ? "boolean"
         : value.IsString() ? "string"
         : value.IsArray()  ? "array"
                            : "object";
}

// Those of the words of a schema.
std::vector<std::string_view> types_of_words(const Json& schema) {
  std::vector<std::string_view> types;
  if (const Json* constant = find(schema, "const"))
    types.push_back(type_of(*constant));
  else if (const Json* list = find(schema, "enum"); list != nullptr && list->IsArray())
    for (const Json& word : list->GetArray()) types.push_back(type_of(word));
  return types;
}

// The words of `enum` or the one of `const`; null where every value may stand.
std::optional<std::vector<std::string>> words_of(const Json& schema) {
  std::vector<std::string> words;
  if (const Json* constant = find(schema, "const")) return std::vector{json_of(*constant)};
  const Json* list = find(schema, "enum");
  if (list == nullptr || !list->IsArray()) return std::nullopt;
  for (const Json& word : list->GetArray()) words.push_back(json_of(word));
  return words;
}

void Comparison::types(const Place& older, const Place& newer) {
  const auto now = types_of(*newer.schema);
  if (now.empty()) return;
  auto old = types_of(*older.schema);
  if (old.empty()) old = types_of_words(*older.schema);
  if (old.empty() && !words_of(*older.schema)) report(newer.at("type"), "a type is demanded where none was");
  for (const std::string_view type : old) {
    const bool kept = std::find(now.begin(), now.end(), type) != now.end() ||
                      (type == "integer" && std::find(now.begin(), now.end(), "number") != now.end());
    if (!kept) report(newer.at("type"), fmt::format("{} was accepted here", type));
  }
}

void Comparison::words(const Place& older, const Place& newer) {
  const auto now = words_of(*newer.schema);
  if (!now) return;
  const auto old = words_of(*older.schema);
  const Place at = newer.at(find(*newer.schema, "const") != nullptr ? "const" : "enum");
  if (!old) {
    report(at, "only some values are accepted where all were");
    return;
  }
  for (const std::string& word : *old)
    if (std::find(now->begin(), now->end(), word) == now->end())
      report(at, fmt::format("{} was accepted here", printable(word)));
}

void Comparison::bounds(const Place& older, const Place& newer) {
  struct Bound {
    std::string_view key;
    bool lower;
    double none; // what the keyword says when it is absent
  };
  const double infinity = std::numeric_limits<double>::infinity();
  const Bound bounds[] = {{"minimum", true, -infinity},
                          {"exclusiveMinimum", true, -infinity},
                          {"minLength", true, 0},
                          {"minItems", true, 0},
                          {"minProperties", true, 0},
                          {"maximum", false, infinity},
                          {"exclusiveMaximum", false, infinity},
                          {"maxLength", false, infinity},
                          {"maxItems", false, infinity},
                          {"maxProperties", false, infinity}};
  for (const auto& [key, lower, none] : bounds) {
    const auto value = [&, k = key, n = none](const Json& schema) {
      const Json* held = find(schema, k);
      return held != nullptr && held->IsNumber() ? held->GetDouble() : n;
    };
    const double old = value(*older.schema), now = value(*newer.schema);
    if (lower ? now > old : now < old)
      report(newer.at(key), std::isinf(old) ? fmt::format("{} {:g} where there was none", key, now)
                                            : fmt::format("{} {:g} instead of {:g}", key, now, old));
  }
}

std::set<std::string_view> required_of(const Json& schema) {
  std::set<std::string_view> keys;
  if (const Json* list = find(schema, "required"); list != nullptr && list->IsArray())
    for (const Json& key : list->GetArray())
      if (key.IsString()) keys.insert(view(key));
  return keys;
}

void Comparison::required(const Place& older, const Place& newer) {
  const auto old = required_of(*older.schema);
  for (const std::string_view key : required_of(*newer.schema))
    if (old.count(key) == 0)
      report(newer.at("required"), fmt::format("`{}` must be there, and could be absent", printable(key)));
}

// {"type": "object", "required": [KEY], "properties": {KEY: {"const": WORD}}}, which holds for every object
// whose KEY is that word.
bool is_condition(const Json& schema, std::string_view key, const std::string& word) {
  const Json* members = find(schema, "properties");
  const Json* held = members == nullptr ? nullptr : find(*members, key);
  const auto words = held == nullptr ? std::nullopt : words_of(*held);
  if (!words || words->size() != 1 || words->front() != word || members->MemberCount() != 1 ||
      held->MemberCount() != 1)
    return false;
  const auto types = types_of(schema);
  return std::all_of(schema.MemberBegin(), schema.MemberEnd(), [&](const auto& member) {
    const std::string_view name = view(member.name);
    return name == "properties" || is_annotation(name) ||
           (name == "required" && required_of(schema) == std::set<std::string_view>{key}) ||
           (name == "type" && types.size() == 1 && types.front() == "object");
  });
}

// Members are looked at by name, by pattern, or by what holds for all others. A key without an entry of its
// own falls to a pattern only where both schemas have the same patterns; else the comparison says so.
void Comparison::properties(const Place& older, const Place& newer) {
  static const Json anything(true);
  const auto members = [](const Place& place, std::string_view key) {
    const Place held = place.at(key);
    return held.schema != nullptr && held.schema->IsObject() ? held : Place{nullptr, held.pointer};
  };
  const auto rest = [](const Place& place) {
    Place held = place.at("additionalProperties");
    if (held.schema == nullptr) held.schema = &anything;
    return held;
  };
  const Place old = members(older, "properties"), now = members(newer, "properties");
  const Place old_patterns = members(older, "patternProperties"),
              now_patterns = members(newer, "patternProperties");
  const Place old_rest = rest(older), now_rest = rest(newer);

  if (now_patterns.schema != nullptr)
    for (const auto& pattern : now_patterns.schema->GetObject()) {
      const std::string_view name = view(pattern.name);
      const Place here = now_patterns.at(name);
      if (old_patterns.schema != nullptr && find(*old_patterns.schema, name) != nullptr)
        schema(old_patterns.at(name), here);
      else if (!accepts_all(pattern.value))
        report(here, "keys of this pattern are looked at, and were not");
    }
  if (old_patterns.schema != nullptr)
    for (const auto& pattern : old_patterns.schema->GetObject()) {
      const std::string_view name = view(pattern.name);
      if (now_patterns.schema == nullptr || find(*now_patterns.schema, name) == nullptr)
        schema(old_patterns.at(name), now_rest);
    }
  if (old.schema != nullptr)
    for (const auto& member : old.schema->GetObject()) {
      const std::string_view name = view(member.name);
      const Place before = old.at(name);
      if (now.schema != nullptr && find(*now.schema, name) != nullptr) {
        schema(before, now.at(name));
        continue;
      }
      if (now_rest.schema->IsBool() && !now_rest.schema->GetBool())
        report({newer.schema, now.pointer}, fmt::format("`{}` was accepted here", printable(name)));
      else
        schema(before, now_rest);
    }
  if (now.schema != nullptr)
    for (const auto& member : now.schema->GetObject()) {
      const std::string_view name = view(member.name);
      const bool known = old.schema != nullptr && find(*old.schema, name) != nullptr;
      if (!known && !refuses_key(older, name)) schema(old_rest, now.at(name));
    }
  schema(old_rest, now_rest);
}

// True where the older schema surely refuses every object with that key: it is closed, or its every kind is.
bool Comparison::refuses_key(Place place, std::string_view key, int within) {
  if (within == most_compared_within || !follow(place, older_) || !place.schema->IsObject()) return false;
  // Where it leads back to itself, that proves nothing.
  const auto [known, is_new] = refused_.try_emplace({place.schema, key}, false);
  if (is_new) known->second = is_closed_to(place, key, within);
  return known->second;
}

bool Comparison::is_closed_to(const Place& place, std::string_view key, int within) {
  const Json* others = find(*place.schema, "additionalProperties");
  const Json* members = find(*place.schema, "properties");
  if (others != nullptr && others->IsBool() && !others->GetBool()) {
    const Json* patterns = find(*place.schema, "patternProperties");
    // Patterns are not matched here, but for the beginnings that the format uses.
    const bool by_pattern =
        patterns != nullptr &&
        std::any_of(patterns->MemberBegin(), patterns->MemberEnd(), [&](const auto& member) {
          const std::string_view pattern = view(member.name);
          const bool beginning = pattern.starts_with('^') &&
                                 pattern.find_first_of("\\.[]()*+?{}|$^", 1) == std::string_view::npos;
          return !beginning || key.starts_with(pattern.substr(1));
        });
    if (!by_pattern && (members == nullptr || find(*members, key) == nullptr)) return true;
  }
  const Json* branches = find(*place.schema, "allOf");
  if (members == nullptr || branches == nullptr || !branches->IsArray()) return false;
  for (const std::string_view by : required_of(*place.schema)) {
    const Json* kind = find(*members, by);
    const auto words = kind == nullptr ? std::nullopt : words_of(*kind);
    if (!words) continue;
    const bool closed = std::all_of(words->begin(), words->end(), [&](const std::string& word) {
      for (rapidjson::SizeType i = 0; i < branches->Size(); ++i) {
        const Json* condition = find((*branches)[i], "if");
        if (condition == nullptr || !is_condition(*condition, by, word)) continue;
        const Place then{find((*branches)[i], "then"), {}};
        if (then.schema != nullptr && refuses_key(then, key, within + 1)) return true;
      }
      return false;
    });
    if (closed) return true;
  }
  return false;
}

void Comparison::held(const Place& older, const Place& newer, std::string_view key) {
  static const Json anything(true);
  const Place now = newer.at(key);
  if (now.schema == nullptr) return;
  Place old = older.at(key);
  if (old.schema == nullptr) old.schema = &anything;
  if (now.schema->IsArray() || old.schema->IsArray()) {
    if (*now.schema != *old.schema || !changed_reference(*now.schema).empty())
      report(now, "a list of schemas differs");
    return;
  }
  schema(old, now);
}

// True where the older schema refuses every object that a condition {"properties": {KEY: {"const": X}},
// "required": [KEY]} speaks of, as X is none of its words for KEY.
bool never_held(const Json& condition, const Json& older) {
  const Json* properties = find(condition, "properties");
  const Json* theirs = find(older, "properties");
  if (properties == nullptr || !properties->IsObject() || theirs == nullptr) return false;
  const auto demanded = required_of(condition);
  for (const auto& member : properties->GetObject()) {
    const auto word = words_of(member.value);
    const Json* known = find(*theirs, view(member.name));
    const auto words = known == nullptr ? std::nullopt : words_of(*known);
    if (!word || !words || demanded.count(view(member.name)) == 0) continue;
    if (std::none_of(word->begin(), word->end(), [&](const std::string& one) {
          return std::find(words->begin(), words->end(), one) != words->end();
        }))
      return true;
  }
  return false;
}

// The branches of `allOf`: one with an `if` is compared with the older one of the same `if`, another with the
// one that stands at its place.
void Comparison::branches(const Place& older, const Place& newer) {
  const Place now = newer.at("allOf");
  if (now.schema == nullptr || !now.schema->IsArray()) return;
  const Json* old = find(*older.schema, "allOf");
  static const Json anything(rapidjson::kObjectType);
  for (rapidjson::SizeType i = 0; i < now.schema->Size(); ++i) {
    const Place here = now.at(i);
    Place before{&anything, older.pointer};
    const Json* condition = find(*here.schema, "if");
    for (rapidjson::SizeType j = 0; old != nullptr && old->IsArray() && j < old->Size(); ++j) {
      const Json* other = find((*old)[j], "if");
      if (condition != nullptr
              ? other != nullptr && *other == *condition && changed_reference(*condition).empty()
              : other == nullptr && i == j)
        before = {&(*old)[j], fmt::format("{}/allOf/{}", older.pointer, j)};
    }
    if (condition != nullptr)
      branch(before, here, older);
    else
      schema(before, here);
  }
}

void Comparison::branch(const Place& older, const Place& newer, const Place& older_home) {
  static const Json anything(true);
  const bool same = find(*older.schema, "if") != nullptr;
  for (const std::string_view key : {"then", "else"}) {
    const Place now = newer.at(key);
    if (now.schema == nullptr) continue;
    if (key == "then" && !same && never_held(*find(*newer.schema, "if"), *older_home.schema)) continue;
    Place old = same ? older.at(key) : Place{nullptr, older.pointer};
    if (old.schema == nullptr) old.schema = &anything;
    schema(old, now);
  }
  for (const auto& member : newer.schema->GetObject()) {
    const std::string_view key = view(member.name);
    if (key != "if" && key != "then" && key != "else" && !is_annotation(key))
      report(newer.at(key), fmt::format("`{}` beside `if` is not compared", printable(key)));
  }
}

// The first `$ref` in a value, or in what that leads to, which does not name the same in both documents.
std::string Comparison::changed_reference(const Json& value) const {
  std::vector<const Json*> waiting = {&value};
  std::set<std::string_view> seen;
  while (!waiting.empty()) {
    const Json& one = *waiting.back();
    waiting.pop_back();
    if (one.IsArray())
      for (const Json& item : one.GetArray()) waiting.push_back(&item);
    if (!one.IsObject()) continue;
    for (const auto& member : one.GetObject()) {
      if (view(member.name) != "$ref" || !member.value.IsString()) {
        waiting.push_back(&member.value);
        continue;
      }
      const std::string_view target = view(member.value);
      if (!seen.insert(target).second) continue;
      const Json *old = referred(target, older_), *now = referred(target, newer_);
      if (old == nullptr || now == nullptr || *old != *now) return std::string(target);
      waiting.push_back(now);
    }
  }
  return {};
}

// Keywords that this comparison does not know must be as they were, and what they refer to.
void Comparison::others(const Place& older, const Place& newer) {
  static constexpr std::string_view known[] = {"type",
                                               "enum",
                                               "const",
                                               "minimum",
                                               "maximum",
                                               "minLength",
                                               "maxLength",
                                               "minItems",
                                               "maxItems",
                                               "minProperties",
                                               "maxProperties",
                                               "exclusiveMinimum",
                                               "exclusiveMaximum",
                                               "required",
                                               "properties",
                                               "patternProperties",
                                               "additionalProperties",
                                               "items",
                                               "propertyNames",
                                               "allOf",
                                               "$ref"};
  for (const auto& member : newer.schema->GetObject()) {
    const std::string_view key = view(member.name);
    if (is_annotation(key) || std::find(std::begin(known), std::end(known), key) != std::end(known)) continue;
    const Json* before = find(*older.schema, key);
    if (before == nullptr)
      report(newer.at(key), fmt::format("`{}` where there was none", printable(key)));
    else if (*before != member.value)
      report(newer.at(key), fmt::format("`{}` is {}, and was {}", printable(key),
                                        printable(json_of(member.value)), printable(json_of(*before))));
    else if (const std::string target = changed_reference(member.value); !target.empty())
      report(newer.at(key), fmt::format("`{}` leads to {}, which is not known to be as it was",
                                        printable(key), printable(target)));
  }
}

bool parse(std::string_view text, std::string_view which, rapidjson::Document& document,
           std::string& problem) {
  schemas::parse(text, document);
  if (document.HasParseError())
    problem = fmt::format("the {} schema is {}", which, schemas::parse_problem(document));
  else if (schemas::deeper_than(document, most_depth))
    problem = fmt::format("the {} schema is nested more than {} deep", which, most_depth);
  else if (!document.IsObject() && !document.IsBool())
    problem = fmt::format("the {} schema is neither an object nor true or false", which);
  return problem.empty();
}

}

Compatibility compare_schemas(std::string_view older, std::string_view newer) {
  Compatibility result;
  rapidjson::Document old, now;
  if (!parse(older, "older", old, result.problem) || !parse(newer, "newer", now, result.problem))
    return result;
  Comparison(old, now, result.narrowings).schema({&old, ""}, {&now, ""});
  return result;
}

}
