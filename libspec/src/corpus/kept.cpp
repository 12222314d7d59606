#include "corpus/kept.h"

#include <type_traits>

#include <rapidjson/document.h>
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

#include "lint/kept_texts.h"

namespace ohmlore {
namespace {

// The members of each record in their order: written and read alike.
template <class Each>
void members(Each& each, Position& it) {
  each(it.line, it.column);
}
template <class Each>
void members(Each& each, Region& it) {
  each(it.begin, it.end, it.first, it.last);
}
template <class Each>
void members(Each& each, Related& it) {
  each(it.file, it.region, it.message);
}
template <class Each>
void members(Each& each, Edit& it) {
  each(it.begin, it.end, it.text, it.first, it.last);
}
template <class Each>
void members(Each& each, Fix& it) {
  each(it.description);
  each.word(it.safety, Fix_safety::display_only, Fix_safety::safe);
  each(it.edits);
}
// Before the run is settled: nothing is suppressed yet, nothing fails, and the file is that of the document.
template <class Each>
void members(Each& each, Finding& it) {
  each.rule(it.rule);
  each.word(it.severity, Severity::note, Severity::error); // nothing is switched off before the policy
  each(it.region, it.pointer, it.message, it.source_line, it.source_column, it.related, it.fixes, it.value);
}
template <class Each>
void members(Each& each, Fact& it) {
  each.rule(it.rule, true);
  each(it.key, it.value, it.text, it.region, it.pointer, it.source_line, it.source_column);
}
template <class Each>
void members(Each& each, Fact_mark& it) {
  each(it.key, it.said);
}
template <class Each>
void members(Each& each, Kept_waiver& it) {
  each(it.rule, it.at, it.why, it.until, it.unused);
}
template <class Each>
void members(Each& each, Linted& it) {
  each(it.file, it.document, it.findings, it.facts, it.marks, it.waivers, it.troubles, it.whole,
       it.all_rules_ran, it.is_corpus);
}

template <class T>
constexpr bool is_text = std::is_same_v<T, std::string> || std::is_same_v<T, std::string_view>;
template <class T>
constexpr bool is_list = false;
template <class T>
constexpr bool is_list<std::vector<T>> = true;

// Writes each record and each list as an array.
class Out {
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
  rapidjson::StringBuffer buffer_;
  rapidjson::Writer<rapidjson::StringBuffer> json_{buffer_};
};

// Reads them again, each array by a reader of its own.
class In {
public:
  explicit In(const rapidjson::Value& array) : good_(array.IsArray()) {
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
  void read(const rapidjson::Value& value, T& member) {
    if constexpr (is_text<T>) {
      if (good_ = value.IsString(); good_) member = {value.GetString(), value.GetStringLength()};
    } else if constexpr (std::is_arithmetic_v<T>) {
      if (good_ = value.IsUint64() && static_cast<T>(value.GetUint64()) == value.GetUint64(); good_)
        member = static_cast<T>(value.GetUint64());
    } else {
      In inner(value);
      if constexpr (is_list<T>)
        while (inner.good_ && inner.next_ != inner.end_) inner.take(member.emplace_back());
      else
        members(inner, member);
      good_ = inner.all_read();
    }
  }

  bool good_;
  const rapidjson::Value* next_ = nullptr;
  const rapidjson::Value* end_ = nullptr;
};

}

std::string kept_text(const Linted& linted) {
  Out out;
  out.put(const_cast<Linted&>(linted)); // the members are named once, for both ways; writing changes none
  return out.text();
}

std::optional<Linted> linted_of(std::string_view text) {
  rapidjson::Document json;
  // By iteration, not recursion: the depth of a text that is not ours has no limit.
  json.Parse<rapidjson::kParseIterativeFlag>(text.data(), text.size());
  if (json.HasParseError() || !json.IsArray()) return std::nullopt;
  std::optional<Linted> linted(std::in_place);
  In in(json);
  members(in, *linted);
  if (!in.all_read()) return std::nullopt;
  keep_texts(linted->file, linted->facts);
  for (Finding& finding : linted->findings) finding.file = linted->file;
  for (Kept_waiver& waiver : linted->waivers) waiver.unused.file = linted->file;
  return linted;
}

}
