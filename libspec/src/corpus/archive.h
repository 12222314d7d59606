// Records as JSON arrays, and back. `members(each, record)`, which stands beside a record, names its members
// once, for both ways: each(a, b), each.word(enumeration, first, last), each.rule(slug). Texts keep their
// bytes, also where these are not UTF-8.
#pragma once

#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "ohmlore/lint.h"
#include "text/json_memory.h"

namespace ohmlore {

template <class T>
inline constexpr bool is_text = std::is_same_v<T, std::string> || std::is_same_v<T, std::string_view>;
template <class T>
inline constexpr bool is_list = false;
template <class T>
inline constexpr bool is_list<std::vector<T>> = true;

/// Writes each record and each list as an array.
class Archive_out {
public:
  template <class... Member>
  void operator()(Member&... member) {
    (put(member), ...);
  }
  template <class Enumeration>
  void word(Enumeration& value, Enumeration, Enumeration) {
    json_.Uint64(static_cast<std::uint64_t>(value));
  }
  void rule(std::string_view& slug, bool = false) { put(slug); }
  std::string text() const { return {buffer_.GetString(), buffer_.GetSize()}; }

  template <class T>
  void put(T& member) {
    if constexpr (is_text<T>) {
      json_.String(member.data(), static_cast<rapidjson::SizeType>(member.size()));
    } else if constexpr (std::is_arithmetic_v<T>) {
      json_.Uint64(static_cast<std::uint64_t>(member));
    } else {
      json_.StartArray();
      if constexpr (is_list<T>)
        for (auto& item : member) put(item);
      else
        members(*this, member);
      json_.EndArray();
    }
  }

private:
  Json_buffer buffer_;
  Json_line_writer json_{buffer_};
};

/// Reads them again, each array by a reader of its own.
class Archive_in {
public:
  explicit Archive_in(const Json_value& array) : good_(array.IsArray()) {
    if (good_) next_ = array.Begin(), end_ = array.End();
  }
  bool all_read() const { return good_ && next_ == end_; }

  template <class... Member>
  void operator()(Member&... member) {
    (take(member), ...);
  }
  template <class Enumeration>
  void word(Enumeration& value, Enumeration first, Enumeration last) {
    std::uint8_t number = 0;
    take(number);
    good_ = good_ && number >= static_cast<std::uint8_t>(first) && number <= static_cast<std::uint8_t>(last);
    if (good_) value = static_cast<Enumeration>(number);
  }
  void rule(std::string_view& slug, bool over_a_corpus = false) {
    take(slug);
    const Rule_entry* entry = good_ ? find_rule(slug) : nullptr;
    good_ = entry != nullptr && (!over_a_corpus || entry->rule->judge != nullptr);
    if (good_) slug = entry->slug; // of the registry: it outlives the text
  }

private:
  template <class T>
  void take(T& member) {
    good_ = good_ && next_ != end_;
    if (good_) read(*next_++, member);
  }
  template <class T>
  void read(const Json_value& value, T& member) {
    if constexpr (is_text<T>) {
      if (good_ = value.IsString(); good_) member = {value.GetString(), value.GetStringLength()};
    } else if constexpr (std::is_arithmetic_v<T>) {
      if (good_ = value.IsUint64() && static_cast<T>(value.GetUint64()) == value.GetUint64(); good_)
        member = static_cast<T>(value.GetUint64());
    } else {
      Archive_in inner(value);
      if constexpr (is_list<T>)
        while (inner.good_ && inner.next_ != inner.end_) inner.take(member.emplace_back());
      else
        members(inner, member);
      good_ = inner.all_read();
    }
  }

  bool good_;
  const Json_value* next_ = nullptr;
  const Json_value* end_ = nullptr;
};

template <class Record>
std::string archived(const Record& record) {
  Archive_out out;
  out.put(const_cast<Record&>(record)); // members are named for both ways; writing changes none
  return out.text();
}

/// Reads a record; false where the text is not what archived() writes. `finish` is called while the texts are
/// there that views of the record point into. Never throws on bad input.
template <class Record, class Finish>
bool unarchived(std::string_view text, Record& record, Finish finish) {
  Json_document json;
  // By iteration, not recursion: the depth of a text that is not ours has no limit.
  json.Parse<rapidjson::kParseIterativeFlag>(text.data(), text.size());
  if (json.HasParseError()) return false;
  Archive_in in(json);
  members(in, record);
  if (!in.all_read()) return false;
  finish();
  return true;
}

}
