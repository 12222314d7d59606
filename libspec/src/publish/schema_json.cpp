#include "publish/schema_json.h"

#include <algorithm>

#include <fmt/format.h>
#include <rapidjson/error/en.h>

#include "text/json_memory.h"

namespace ohmlore::schemas {

std::span<const Json::Member> members(const Json& object) {
  return {object.ObjectEmpty() ? nullptr : &*object.MemberBegin(), object.MemberCount()};
}
const Json* find(const Json& object, std::string_view key) {
  for (const Json::Member& member : members(object))
    if (view(member.name) == key) return &member.value;
  return nullptr;
}

void parse(std::string_view text, rapidjson::Document& document) {
  constexpr unsigned flags = rapidjson::kParseIterativeFlag | rapidjson::kParseValidateEncodingFlag;
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  document.Parse<flags>(text.data(), text.size());
}

std::string parse_problem(const rapidjson::Document& document) {
  // Also of a number within limits: RapidJSON goes by its digits and its exponent, as of 0e999.
  if (document.GetParseError() == rapidjson::kParseErrorNumberTooBig)
    return fmt::format(
        "the number at byte {} is written larger than the schema engine takes; write it shorter",
        document.GetErrorOffset());
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

void round_long_numbers(Json& value) {
  if (value.IsUint64() && !value.IsInt64()) value.SetDouble(value.GetDouble());
  if (value.IsArray())
    for (Json& item : value.GetArray()) round_long_numbers(item);
  if (value.IsObject())
    for (rapidjson::SizeType i = 0; i < value.MemberCount(); ++i)
      round_long_numbers((value.MemberBegin() + static_cast<std::ptrdiff_t>(i))->value);
}

std::string json_of(const Json& value) {
  Json_buffer buffer;
  Json_line_writer writer(buffer);
  value.Accept(writer);
  return {buffer.GetString(), buffer.GetSize()};
}

}
