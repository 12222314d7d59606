// What the JSON reports share.
#pragma once

#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include <fmt/format.h>

#include "ohmlore/text.h"
#include "ohmlore/version.h"
#include "text/json_memory.h"

namespace ohmlore {

inline void key(Json_writer& out, std::string_view text) {
  out.Key(text.data(), static_cast<rapidjson::SizeType>(text.size()));
}
/// Document text and file names may hold bytes that are not UTF-8; a report has \x… for each, as `printable`
/// has: two such names stay two.
inline void string(Json_writer& out, std::string_view text) {
  std::string clean;
  for (std::size_t bad; (bad = find_invalid_utf8(text)) != text.npos; text.remove_prefix(bad + 1))
    clean += fmt::format("{}\\x{:02X}", text.substr(0, bad), static_cast<unsigned char>(text[bad]));
  clean += text;
  out.String(clean.data(), static_cast<rapidjson::SizeType>(clean.size()));
}
inline void member(Json_writer& out, std::string_view name, std::string_view text) {
  key(out, name);
  string(out, text);
}
inline void number(Json_writer& out, std::string_view name, std::uint64_t value) {
  key(out, name);
  out.Uint64(value);
}

template <class E>
requires std::is_enum_v<E>
void word(Json_writer& out, std::string_view name, E value) { member(out, name, word_of(value)); }
inline void truth(Json_writer& out, std::string_view name, bool value) {
  key(out, name);
  out.Bool(value);
}
inline void texts(Json_writer& out, std::string_view name, const std::vector<std::string>& list) {
  key(out, name);
  out.StartArray();
  for (const std::string& one : list) string(out, one);
  out.EndArray();
}
/// The words of enumerations.
template <class List>
void words(Json_writer& out, std::string_view name, const List& items) {
  key(out, name);
  out.StartArray();
  for (const auto item : items) string(out, word_of(item));
  out.EndArray();
}
/// Of objects; `f` writes the members of one.
template <class List, class F>
void list(Json_writer& out, std::string_view name, const List& items, F f) {
  key(out, name);
  out.StartArray();
  for (const auto& item : items) {
    out.StartObject();
    f(item);
    out.EndObject();
  }
  out.EndArray();
}
template <class F>
void object(Json_writer& out, std::string_view name, F f) {
  key(out, name);
  out.StartObject();
  f();
  out.EndObject();
}

/// One object, with the members that `members` writes.
template <class F>
std::string written_object(F members) {
  Json_buffer buffer;
  Json_writer out(buffer);
  out.SetIndent(' ', 2);
  out.StartObject();
  members(out);
  out.EndObject();
  buffer.Put('\n');
  return printable_json({buffer.GetString(), buffer.GetSize()});
}

/// One report: "format" and "program", then the members that `members` writes.
template <class F>
std::string written_report(std::string_view format, F members) {
  return written_object([&](Json_writer& out) {
    member(out, "format", format);
    key(out, "program");
    out.StartObject();
    member(out, "name", "ohmlore");
    member(out, "version", program_version);
    out.EndObject();
    members(out);
  });
}

}
