// The JSON of schemas and of what they are asked of, as RapidJSON holds it.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include <rapidjson/document.h>

namespace ohmlore::schemas {

using Json = rapidjson::Value;

inline std::string_view view(const Json& text) { return {text.GetString(), text.GetStringLength()}; }

/// As spans: RapidJSON's own iterators compare in a way that C++20 finds ambiguous.
std::span<const Json::Member> members(const Json& object);
/// The value of the first such key, or null.
const Json* find(const Json& object, std::string_view key);

void parse(std::string_view text, rapidjson::Document& document);
std::string parse_problem(const rapidjson::Document& document);
bool deeper_than(const Json& value, unsigned most);
/// The engine takes whole numbers of more than 63 bits for negative ones.
void round_long_numbers(Json& value);

std::string json_of(const Json& value);

}
