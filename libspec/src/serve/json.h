// JSON of messages. What comes from outside may be anything: it is asked for, never assumed.
#pragma once

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string_view>

#include "report/json_members.h"

namespace ohmlore::serve {

using Json = Json_value;

/// What stands there, or null; also where `from` is null.
inline const Json* at(const Json* from, std::initializer_list<std::string_view> path) {
  for (const std::string_view name : path) {
    if (from == nullptr || !from->IsObject()) return nullptr;
    const auto found = from->FindMember(
        Json(rapidjson::StringRef(name.data(), static_cast<rapidjson::SizeType>(name.size()))));
    if (found == from->MemberEnd()) return nullptr;
    from = &found->value;
  }
  return from;
}

inline std::optional<std::string_view> text_at(const Json* from,
                                               std::initializer_list<std::string_view> path) {
  const Json* found = at(from, path);
  if (found == nullptr || !found->IsString()) return std::nullopt;
  return std::string_view(found->GetString(), found->GetStringLength());
}
inline std::optional<std::uint32_t> number_at(const Json* from,
                                              std::initializer_list<std::string_view> path) {
  const Json* found = at(from, path);
  return found != nullptr && found->IsUint() ? std::optional(found->GetUint()) : std::nullopt;
}
inline bool truth_at(const Json* from, std::initializer_list<std::string_view> path) {
  const Json* found = at(from, path);
  return found != nullptr && found->IsTrue();
}
/// Whether an array stands there that holds this text.
inline bool holds(const Json* from, std::initializer_list<std::string_view> path, std::string_view word) {
  const Json* found = at(from, path);
  if (found == nullptr || !found->IsArray()) return false;
  for (const Json& item : found->GetArray())
    if (item.IsString() && std::string_view(item.GetString(), item.GetStringLength()) == word) return true;
  return false;
}

}
