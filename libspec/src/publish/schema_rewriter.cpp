#include "publish/schema_rewriter.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "publish/schema_keywords.h"

namespace ohmlore::schemas {
namespace {

std::string number_text(const Json& number) {
  return number.IsDouble() ? fmt::format("{}", number.GetDouble()) : json_of(number);
}

// Left out are formats, of which the engine would check three, and throw where the value is no text; and
// keywords of older drafts. The schema of `propertyNames` it takes for the schema around it where a `$ref`
// leads to that one; behind a `$ref` of its own it does not.
class Rewriter {
public:
  Rewriter(const Inspected& inspected, Rewritten& out)
      : inspected_(inspected), out_(out), memory_(out.schema.GetAllocator()) {}

  void write(const Json& root) {
    Json written = any(root);
    out_.names = names_.Size();
    if (out_.names != 0) written.AddMember(text(own_name("names")), names_, memory_);
    static_cast<Json&>(out_.schema) = written;
  }

private:
  Json text(std::string_view from) {
    return Json(from.data(), static_cast<rapidjson::SizeType>(from.size()), memory_);
  }
  Json object_of(std::string_view key, Json value) {
    Json out(rapidjson::kObjectType);
    out.AddMember(text(key), value, memory_);
    return out;
  }
  void append(Json& object, const Json& name, Json value) {
    object.AddMember(Json(name, memory_), value, memory_);
  }
  Json refusing(std::string_view cause) { return object_of(own_name(refuses), text(cause)); }

  Json any(const Json& value) {
    if (value.IsObject()) return inspected_.is_schema(value) ? schema(value) : map(value, {});
    if (!value.IsArray()) return Json(value, memory_);
    Json out(rapidjson::kArrayType);
    for (const Json& item : value.GetArray()) out.PushBack(any(item), memory_);
    return out;
  }

  // `cause` says for which keyword an entry that is `false` refuses; without one it stays what it is.
  Json map(const Json& value, std::string_view cause) {
    Json out(rapidjson::kObjectType);
    for (const Json::Member& member : members(value))
      append(out, member.name,
             member.value.IsFalse() && !cause.empty() ? refusing(cause) : any(member.value));
    return out;
  }

  Json schema(const Json& value) {
    Json out(rapidjson::kObjectType);
    Json all(rapidjson::kArrayType);
    const Json* names = nullptr;
    for (const Json::Member& member : members(value)) {
      const std::string_view key = view(member.name);
      const Json& inner = member.value;
      const std::string* reference = key == "$ref" ? inspected_.reference_of(value) : nullptr;
      if (key.starts_with(own) || is_left_out(key)) continue;
      if (reference != nullptr)
        append(out, member.name, text(*reference));
      else if (limit_named(key) != nullptr && inner.IsNumber())
        out.AddMember(text(own_name(key)), text(number_text(inner)), memory_);
      else if (key == "uniqueItems" && inner.IsTrue())
        out.AddMember(text(own_name(key)), Json(true), memory_);
      else if (key == "enum" && inner.IsArray())
        out.AddMember(text(own_name(key)), Json(inner, memory_), memory_);
      else if (key == "additionalProperties" && inner.IsFalse())
        append(out, member.name, refusing(key));
      else if ((key == "properties" || key == "patternProperties") && inner.IsObject())
        append(out, member.name, map(inner, key));
      else if (key == "propertyNames")
        names = &inner;
      else if (key == "allOf")
        all = any(inner);
      else
        append(out, member.name, any(inner));
    }
    if (names != nullptr) {
      Json asked = object_of("propertyNames", object_of("$ref", text(names_reference(names_.Size()))));
      Json checked = object_of("if", std::move(asked));
      checked.AddMember("else", refusing(fmt::format("propertyNames:{}", names_.Size())), memory_);
      names_.PushBack(any(*names), memory_);
      all.PushBack(checked, memory_);
    }
    if (!all.Empty()) out.AddMember("allOf", all, memory_);
    return out;
  }

  static bool is_left_out(std::string_view key) {
    constexpr std::array left_out = {"format", "divisibleBy", "extends", "disallow", "id"};
    return std::find(left_out.begin(), left_out.end(), key) != left_out.end();
  }

  const Inspected& inspected_;
  Rewritten& out_;
  rapidjson::Document::AllocatorType& memory_;
  Json names_{rapidjson::kArrayType};
};

}

Rewritten rewrite(const Json& root, const Inspected& inspected) {
  Rewritten out;
  Rewriter(inspected, out).write(root);
  return out;
}

std::string names_reference(std::size_t index) { return fmt::format("#/{}/{}", own_name("names"), index); }

}
