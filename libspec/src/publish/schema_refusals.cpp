#include "publish/schema_refusals.h"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

#include "ohmlore/text.h"
#include "publish/schema_keywords.h"
#include "text/cut.h"

namespace ohmlore::schemas {
namespace {

// The engine writes "[key]" for members and items alike; the document tells them apart, and a pointer
// writes them alike too.
Place place_of(const std::vector<std::string>& context) {
  Place place;
  for (std::size_t i = 1; i < context.size(); ++i) // the first is the root
    place.keys.push_back(context[i].substr(1, context[i].size() - 2));
  return place;
}

std::string shown(const Json* value) {
  if (value == nullptr) return "this";
  if (value->IsObject()) return "this object";
  if (value->IsArray()) return "this list";
  return shortened(json_of(*value), 40);
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

// What our own keywords tell: "keyword:words".
void read_own(Error& error, const Json* value, std::string_view told) {
  const std::string_view keyword = told.substr(0, told.find(':'));
  const Keyword* bound = limit_named(keyword);
  if (keyword == "propertyNames") {
    error.keyword = "propertyNames";
    error.message = "this object has a key that is not what the schema asks of keys";
    error.names = std::stoul(std::string(told.substr(keyword.size() + 1)));
    return;
  }
  if (keyword == "uniqueItems") {
    error.keyword = "uniqueItems";
    error.message = fmt::format("the items {} of this list (the first is 0) are the same",
                                told.substr(keyword.size() + 1));
    return;
  }
  if (keyword == "enum") {
    error.keyword = "enum";
    error.message = fmt::format("{} is not one of the values that the schema allows", shown(value));
    return;
  }
  if (bound == nullptr) { // a key that no place in the schema allows
    error.keyword = keyword == "additionalProperties" ? "additionalProperties" : "";
    error.message = fmt::format("`{}` is not a key that the schema allows here",
                                printable(error.place.keys.empty() ? "" : error.place.keys.back()));
    return;
  }
  constexpr std::array relations = {"at most", "less than", "at least", "more than", "a multiple of"};
  constexpr std::array units = {"", " characters", " items", " members"};
  const auto [of, must] = *bound->limit;
  error.keyword = bound->name;
  error.message = fmt::format("{} must {} {} {}{}", shown(value), of == Of::number ? "be" : "have",
                              relations[static_cast<std::size_t>(must)], told.substr(keyword.size() + 1),
                              units[static_cast<std::size_t>(of)]);
}

}

bool Place::below(const Place& other) const {
  return keys.size() >= other.keys.size() && std::equal(other.keys.begin(), other.keys.end(), keys.begin());
}

std::string Place::pointer() const {
  std::string out;
  for (const std::string& key : keys) out += '/' + pointer_token(key);
  return out;
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

// By how the sentences of the engine begin: further on they hold words of the schema, or of the document.
Error read_error(const Json& root, const std::vector<std::string>& context, std::string_view text) {
  Error error{place_of(context), {}, {}};
  const Json* value = value_at(root, error.place);
  std::string_view rest;
  auto begins = [&](std::string_view words) {
    if (!text.starts_with(words)) return false;
    rest = text.substr(words.size());
    return true;
  };
  auto in_quotes = [&] { return std::string(rest.substr(0, rest.rfind('\''))); };
  auto number = [&] { return std::string(rest.substr(0, rest.find(' '))); };
  auto refuse = [&](std::string_view keyword, std::string message) {
    error.keyword = keyword;
    error.message = std::move(message);
  };
  if (begins(own)) {
    read_own(error, value, rest);
  } else if (begins("Failed to validate against schema associated with property name '")) {
    error.step = true;
    error.place.keys.push_back(in_quotes());
  } else if (begins("Failed to validate item #")) {
    error.step = true;
    if (!rest.ends_with("corresponding item schema.")) error.place.keys.push_back(number());
  } else if (begins("Failed to validate against additional properties schema") ||
             begins("Failed to validate against child schema #") ||
             begins("Failed to validate against a conditional schema") ||
             begins("Failed to validate against dependent schema") || begins("Cannot validate item #")) {
    error.step = true;
  } else if (begins("Failed to validate against schema associated with pattern '")) {
    error.step = true;
    error.pattern = true;
  } else if (const bool any = begins("Failed to validate against any schemas allowed by anyOf");
             any || begins("Failed to validate against any child schemas allowed by oneOf")) {
    error.choice = true;
    refuse(any ? "anyOf" : "oneOf",
           fmt::format("{} fits none of the alternatives of the schema", shown(value)));
  } else if (begins("Failed to validate against exactly one child schema")) {
    refuse("oneOf", fmt::format("{} fits more than one alternative of the schema", shown(value)));
  } else if (begins("Missing required property '")) {
    error.missing = in_quotes();
    refuse("required", fmt::format("the schema asks for `{}` here", printable(error.missing)));
  } else if (begins("Missing dependency '")) {
    error.missing = in_quotes();
    refuse("dependencies", fmt::format("the schema asks for `{}` here, for the sake of another key",
                                       printable(error.missing)));
  } else if (begins("Value type not permitted by 'type'")) {
    refuse("type", fmt::format("the schema does not allow {} here", kind_of(value)));
  } else if (begins("Failed to match regex")) {
    refuse("pattern", fmt::format("{} does not have the form that the schema asks for", shown(value)));
  } else if (begins("Failed to match expected value")) {
    refuse("const", fmt::format("{} is not the value that the schema asks for", shown(value)));
  } else if (begins("Failed to any values against subschema in 'contains'")) {
    refuse("contains", "no item of this list is what the schema asks for");
  } else if (begins("Target should not validate")) {
    refuse("not", fmt::format("{} is what the schema excludes", shown(value)));
  } else if (begins("Array contains more items")) {
    refuse("additionalItems", fmt::format("{} has more items than the schema allows", shown(value)));
  } else {
    error.message = fmt::format("{} is refused by the schema: {}", shown(value), printable(text));
  }
  return error;
}

void Refusals::add(Error error) {
  if (error.choice) keep_deepest_below(error);
  if (!error.step && !error.choice) {
    for (const Error& known : errors_)
      if (known.place.keys == error.place.keys && known.message == error.message) return;
  }
  errors_.push_back(std::move(error));
}

std::vector<Schema_refusal> Refusals::take() {
  std::vector<Schema_refusal> out;
  auto explained = [&](const Error& step) {
    return std::any_of(errors_.begin(), errors_.end(), [&](const Error& other) {
      return &other != &step && other.place.below(step.place) &&
             (!other.step || other.place.keys.size() > step.place.keys.size());
    });
  };
  for (const Error& error : errors_) {
    if ((error.step && explained(error)) || is_doubtful(error)) continue;
    Schema_refusal refusal{error.place.pointer(), error.message, error.keyword, error.missing};
    if (error.step) refusal.message = "this is refused by the schema as a whole";
    if (std::none_of(out.begin(), out.end(), [&](const Schema_refusal& known) {
          return known.pointer == refusal.pointer && known.message == refusal.message;
        }))
      out.push_back(std::move(refusal));
  }
  return out;
}

// After a refusal by one of `patternProperties` the engine takes keys that it did not look at for
// additional.
bool Refusals::is_doubtful(const Error& error) const {
  if (error.keyword != "additionalProperties") return false;
  return std::any_of(errors_.begin(), errors_.end(), [&](const Error& other) {
    return other.pattern && other.place.keys.size() + 1 == error.place.keys.size() &&
           error.place.below(other.place);
  });
}

// Alternatives complain each for itself. Those that came furthest say most; where none came further than
// the choice itself, the choice says it all.
void Refusals::keep_deepest_below(Error& choice) {
  std::size_t deepest = choice.place.keys.size();
  for (const Error& error : errors_)
    if (!error.step && error.place.below(choice.place)) deepest = std::max(deepest, error.place.keys.size());
  std::erase_if(errors_, [&](const Error& error) {
    return error.place.below(choice.place) &&
           (error.place.keys.size() < deepest || deepest == choice.place.keys.size());
  });
  choice.step = deepest > choice.place.keys.size();
}

}
