// The one file that knows valijson. Its results name no places and repeat each refusal on every level above
// it; what leaves this file has a JSON Pointer, the deepest refusals only, and our words.
#include "ohmlore/schema_engine.h"

#include "ohmlore/description.h"
#include "ohmlore/text.h"

#if OHMLORE_SCHEMA_ENGINE

#include "publish/pattern.h"
#include "text/pointer.h"

#if !defined(VALIJSON_USE_EXCEPTIONS) || VALIJSON_USE_EXCEPTIONS != 1
#error "Define VALIJSON_USE_EXCEPTIONS as 1: without it a bad schema ends the program"
#endif
#include <functional>
#include <limits>
#include <regex>
#include <stdexcept>

// valijson 1.0 names std::regex, which recurses over the text that it searches, takes for some texts longer
// than anyone waits, and counts bytes. Within valijson, this is what it finds by that name.
namespace valijson::std {
using namespace ::std;

class regex {
public:
  explicit regex(const string& text) : pattern_(ohmlore::compile_pattern(text)) {}
  bool in(const string& text) const { return ohmlore::found(pattern_, text); }

private:
  ohmlore::Pattern pattern_;
};

inline bool regex_search(const string& text, const regex& expression) { return expression.in(text); }
// Of formats, which are annotations: never asked.
inline bool regex_match(const string&, smatch&, const regex&) { return true; }
inline bool regex_match(const string&, const regex&) { return true; }

// What the engine calls each time that it applies a schema to a value: references may double that at every
// level of a document.
inline thread_local double applications_left = numeric_limits<double>::infinity();
template <class... T>
auto bind(T&&... parts) {
  if (--applications_left < 0)
    throw runtime_error("its schemas apply too often to the values of this document");
  return ::std::bind(forward<T>(parts)...);
}
}

#include <valijson/adapters/rapidjson_adapter.hpp> // before any header of RapidJSON

#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <mutex>
#include <optional>
#include <span>
#include <unordered_map>
#include <unordered_set>
#include <utility>

#include <fmt/format.h>
#include <rapidjson/document.h>
#include <rapidjson/error/en.h>
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

namespace ohmlore {

struct Compiled_schema {
  valijson::Schema schema;
  std::vector<std::unique_ptr<valijson::Schema>>
      names; // of keys: each `propertyNames`, if they may be asked alone
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
  valijson::Validator& operator*() const { return *validator_; }

private:
  const Compiled_schema& schema_;
  std::unique_ptr<valijson::Validator> validator_;
};

using Json = rapidjson::Value;

constexpr unsigned parse_flags = rapidjson::kParseIterativeFlag | rapidjson::kParseValidateEncodingFlag;
constexpr int most_chained = 256;       // schemas inside or behind each other; the engine recurses over them
constexpr int most_in_place = 16;       // of those, schemas for one and the same value
constexpr double most_applied = 10'000; // schemas that look at one value, each as often as it does

std::string_view view(const Json& text) { return {text.GetString(), text.GetStringLength()}; }

// Members as spans: RapidJSON's own iterators compare in a way that C++20 finds ambiguous.
std::span<const Json::Member> members(const Json& object) {
  return {object.ObjectEmpty() ? nullptr : &*object.MemberBegin(), object.MemberCount()};
}
const Json* find(const Json& object, std::string_view key) {
  for (const Json::Member& member : members(object))
    if (view(member.name) == key) return &member.value;
  return nullptr;
}

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

// The engine takes whole numbers of more than 63 bits for negative ones.
void round_long_numbers(Json& value) {
  if (value.IsUint64() && !value.IsInt64()) value.SetDouble(value.GetDouble());
  if (value.IsArray())
    for (Json& item : value.GetArray()) round_long_numbers(item);
  if (value.IsObject())
    for (rapidjson::SizeType i = 0; i < value.MemberCount(); ++i)
      round_long_numbers((value.MemberBegin() + static_cast<std::ptrdiff_t>(i))->value);
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
void each_inner(const Json& schema, Visit visit) {
  auto take = [&](const Json& value, bool in_place) {
    if (value.IsObject()) visit(value, in_place);
  };
  for (const Keyword& keyword : keywords) {
    const Json* value = find(schema, keyword.name);
    if (value == nullptr) continue;
    if (keyword.holds == Holds::schema)
      take(*value, keyword.in_place);
    else if (keyword.holds == Holds::list && value->IsArray())
      for (const Json& item : value->GetArray()) take(item, keyword.in_place);
    else if (keyword.holds == Holds::map && value->IsObject())
      for (const Json::Member& entry : members(*value)) take(entry.value, keyword.in_place);
  }
}

// What the engine may be asked to take for a schema: "" where it is one, and else why not.
std::string misuse_problem(const Json& schema, std::string_view pointer);

// The text after "#" of a `$ref`, as a JSON Pointer. Many write characters there that a URI must encode.
std::string pointer_in(std::string_view fragment) {
  constexpr std::string_view digits = "0123456789abcdef";
  auto digit = [&](std::size_t at) {
    const char c = at < fragment.size() ? fragment[at] : ' ';
    return digits.find(c >= 'A' && c <= 'F' ? static_cast<char>(c - 'A' + 'a') : c);
  };
  std::string out;
  for (std::size_t at = 0; at < fragment.size(); ++at) {
    const bool encoded = fragment[at] == '%' && digit(at + 1) != digits.npos && digit(at + 2) != digits.npos;
    out += encoded ? static_cast<char>(digit(at + 1) * 16 + digit(at + 2)) : fragment[at];
    if (encoded) at += 2;
  }
  return out;
}

const Json* item_of(const Json& list, std::string_view token) {
  for (rapidjson::SizeType index = 0; index < list.Size(); ++index)
    if (std::to_string(index) == token) return &list[index];
  return nullptr;
}

// Of the schemas that look at one value before any looks at a part of it, with the one that is asked for: how
// many stand in or behind each other, and how many there are, each as often as the engine comes to it.
struct Weight {
  int height = -1; // not known yet
  double applied = 0;
};

// Looks at every schema that the engine will meet, and changes none.
class Inspector {
public:
  explicit Inspector(const Json& root) : root_(root) {
    if (!root.IsObject()) return;
    know(root);
    walk(root, 0);
    for (const Json* schema : seen_) weigh(*schema);
  }

  std::string problem; // empty where the engine can safely work with the schema
  bool refers_to_root = false;

  bool is_schema(const Json& value) const { return known_.count(&value) != 0; }
  /// The `$ref` of a schema as the engine reads it; null where it will not meet that schema.
  const std::string* reference_of(const Json& schema) const {
    const auto at = references_.find(&schema);
    return at == references_.end() ? nullptr : &at->second;
  }

private:
  void know(const Json& schema) {
    if (!schema.IsObject() || !known_.insert(&schema).second) return;
    each_inner(schema, [&](const Json& inner, bool) { know(inner); });
  }

  // Every schema that the engine will meet, and how deep it recurses on the way.
  void walk(const Json& schema, int chained) {
    if (!problem.empty()) return;
    if (chained > most_chained) return fail("its schemas are nested, or refer to each other, too deeply");
    if (!weights_.emplace(&schema, Weight{}).second) return;
    seen_.push_back(&schema);
    if (const Json* reference = find(schema, "$ref")) {
      if (const Json* target = resolve(schema, *reference)) walk(*target, chained + 1);
      return;
    }
    check_patterns(schema);
    each_inner(schema, [&](const Json& inner, bool) { walk(inner, chained + 1); });
  }

  Weight weigh(const Json& schema) {
    Weight& known = weights_[&schema];
    constexpr int unknown = Weight().height, open = 0;
    if (known.height == open)
      fail("its `$ref`s lead back to where they start, without looking at a part of the document between");
    if (known.height != unknown || !problem.empty()) return known;
    known.height = open;
    Weight all{0, 1};
    auto add = [&](const Json& inner) {
      const Weight weight = weigh(inner);
      all.height = std::max(all.height, weight.height);
      all.applied += weight.applied;
    };
    if (find(schema, "$ref") != nullptr) {
      if (const Json* target = targets_[&schema]) add(*target);
    } else {
      each_inner(schema, [&](const Json& inner, bool in_place) {
        if (in_place) add(inner);
      });
    }
    if (all.height >= most_in_place)
      fail(fmt::format("more than {} of its schemas apply to one value", most_in_place));
    if (all.applied > most_applied)
      fail(fmt::format("its schemas, by way of `$ref`, apply more than {} times to one value", most_applied));
    ++all.height;
    return weights_[&schema] = all;
  }

  const Json* resolve(const Json& schema, const Json& reference) {
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
    const std::string pointer = pointer_in(text.substr(1));
    std::string canonical = "#";
    const Json* target = &root_;
    for (std::string_view rest = pointer; !rest.empty() && target != nullptr;) {
      const std::size_t end = std::min(rest.find('/', 1), rest.size());
      const std::string key = rest.starts_with('/') ? token_text(rest.substr(1, end - 1)) : std::string();
      rest.remove_prefix(end);
      if (is_schema(*target) && (key == "const" || key == "enum"))
        target = nullptr;
      else if (key.empty())
        target = nullptr; // the engine would skip it
      else if (target->IsObject())
        target = find(*target, key);
      else
        target = target->IsArray() ? item_of(*target, key) : nullptr;
      // It looks for what is percent-encoded, too.
      for (const char c : '/' + pointer_token(key))
        canonical += c == '%' ? std::string("%25") : std::string(1, c);
    }
    if (target == nullptr) {
      fail(fmt::format("`$ref` to {} names nothing", printable(text)));
      return nullptr;
    }
    if (!is_schema(*target)) {
      if (std::string misuse = misuse_problem(*target, pointer); !misuse.empty()) fail(std::move(misuse));
      know(*target);
    }
    if (target == &root_) refers_to_root = true;
    references_[&schema] = std::move(canonical);
    return targets_[&schema] = target->IsObject() ? target : nullptr;
  }

  void check_patterns(const Json& schema) {
    if (const Json* pattern = find(schema, "pattern"); pattern && pattern->IsString())
      check_pattern(view(*pattern));
    if (const Json* map = find(schema, "patternProperties"); map && map->IsObject())
      for (const Json::Member& entry : members(*map)) check_pattern(view(entry.name));
  }

  void check_pattern(std::string_view pattern) {
    if (!patterns_.insert(pattern).second) return;
    if (pattern.size() > most_text) return fail(fmt::format("a pattern has more than {} bytes", most_text));
    // The engine would read as far as there.
    if (pattern.find('\0') != pattern.npos) return fail("a pattern holds U+0000; write it as \\\\u0000");
    if (const Pattern compiled = compile_pattern(pattern); !compiled.problem.empty())
      fail(fmt::format("the pattern {} {}", printable(pattern), printable(compiled.problem)));
  }

  void fail(std::string why) {
    if (problem.empty()) problem = std::move(why);
  }

  const Json& root_;
  std::unordered_set<const Json*> known_; // reached by keywords, from the root or from where a `$ref` leads
  std::vector<const Json*> seen_;
  std::unordered_set<std::string_view> patterns_;
  std::unordered_map<const Json*, Weight> weights_;
  std::unordered_map<const Json*, const Json*> targets_;
  std::unordered_map<const Json*, std::string> references_;
};

// ---- keywords that we check ourselves, by names that no schema of draft-07 has

// The engine tells numbers with six decimals, and reads some of them wrong.
enum class Of { number, characters, items, members };
enum class Must { at_most, less, at_least, more, multiple };
struct Limit {
  std::string_view keyword;
  Of of;
  Must must;
};
constexpr std::array limits = {
    Limit{"maximum", Of::number, Must::at_most},         Limit{"exclusiveMaximum", Of::number, Must::less},
    Limit{"minimum", Of::number, Must::at_least},        Limit{"exclusiveMinimum", Of::number, Must::more},
    Limit{"multipleOf", Of::number, Must::multiple},     Limit{"maxLength", Of::characters, Must::at_most},
    Limit{"minLength", Of::characters, Must::at_least},  Limit{"maxItems", Of::items, Must::at_most},
    Limit{"minItems", Of::items, Must::at_least},        Limit{"maxProperties", Of::members, Must::at_most},
    Limit{"minProperties", Of::members, Must::at_least},
};

const Limit* limit_of(std::string_view keyword) {
  const auto at = std::find_if(limits.begin(), limits.end(),
                               [&](const Limit& limit) { return limit.keyword == keyword; });
  return at == limits.end() ? nullptr : &*at;
}

constexpr std::string_view own = "ohmlore:"; // before the names of such keywords, and before what they tell
constexpr std::string_view refuses = "refuses";
std::string own_name(std::string_view keyword) { return fmt::format("{}{}", own, keyword); }

using Adapter = valijson::adapters::Adapter;
using Context = std::vector<std::string>;

template <class Own>
class Own_constraint : public valijson::constraints::PolyConstraint {
public:
  bool validate(const Adapter& target, const Context& context,
                valijson::ValidationResults* results) const override {
    const Own& self = static_cast<const Own&>(*this);
    if (self.accepts(target)) return true;
    if (results != nullptr) results->pushError(context, self.tells());
    return false;
  }

private:
  valijson::constraints::Constraint* cloneInto(void* place) const override {
    return new (place) Own(static_cast<const Own&>(*this));
  }
  std::size_t sizeOf() const override { return sizeof(Own); }
};

class Limited : public Own_constraint<Limited> {
public:
  Limited(const Limit& limit, std::string written) : limit_(&limit), written_(std::move(written)) {
    rapidjson::Document number;
    parse(written_, number);
    bound_ = number.GetDouble();
  }

  bool accepts(const Adapter& target) const {
    double value = 0;
    switch (limit_->of) {
    case Of::number:
      if (!target.isNumber()) return true;
      value = target.asDouble();
      break;
    case Of::characters:
      if (!target.isString()) return true;
      value = static_cast<double>(code_points(target.asString()));
      break;
    case Of::items:
      if (!target.isArray()) return true;
      value = static_cast<double>(target.getArraySize());
      break;
    case Of::members:
      if (!target.isObject()) return true;
      value = static_cast<double>(target.getObjectSize());
      break;
    }
    switch (limit_->must) {
    case Must::at_most: return value <= bound_;
    case Must::less: return value < bound_;
    case Must::at_least: return value >= bound_;
    case Must::more: return value > bound_;
    case Must::multiple:
      return std::fabs(std::remainder(value, bound_)) <= std::numeric_limits<double>::epsilon();
    }
    return true;
  }
  std::string tells() const { return fmt::format("{}{}:{}", own, limit_->keyword, written_); }

private:
  const Limit* limit_;
  std::string written_;
  double bound_ = 0;
};

// Refuses everything, and says for which keyword.
class Refusing : public Own_constraint<Refusing> {
public:
  explicit Refusing(std::string cause) : cause_(std::move(cause)) {}
  bool accepts(const Adapter&) const { return false; }
  std::string tells() const { return fmt::format("{}{}", own, cause_); }

private:
  std::string cause_;
};

struct Limit_builder : valijson::ConstraintBuilder {
  explicit Limit_builder(const Limit& of) : limit(of) {}
  valijson::constraints::Constraint* make(const Adapter& written) const override {
    return new Limited(limit, written.asString());
  }
  const Limit& limit;
};
struct Refusing_builder : valijson::ConstraintBuilder {
  valijson::constraints::Constraint* make(const Adapter& cause) const override {
    return new Refusing(cause.asString());
  }
};

void add_own_keywords(valijson::SchemaParser& parser) {
  for (const Limit& limit : limits)
    parser.addConstraintBuilder(own_name(limit.keyword), new Limit_builder(limit));
  parser.addConstraintBuilder(own_name(refuses), new Refusing_builder);
}

std::string json_of(const Json& value) {
  rapidjson::StringBuffer buffer;
  rapidjson::Writer<rapidjson::StringBuffer> writer(buffer);
  value.Accept(writer);
  return {buffer.GetString(), buffer.GetSize()};
}

std::string number_text(const Json& number) {
  return number.IsDouble() ? fmt::format("{}", number.GetDouble()) : json_of(number);
}

// Writes the schema anew, without what the engine gets wrong, and with the same meaning. Left out: formats,
// of which it would check three, and throw where the value is no text; and keywords of older drafts. The
// schema of `propertyNames` it takes for the schema around it where a `$ref` leads to that one; behind a
// `$ref` of its own it does not.
class Rewriter {
public:
  Rewriter(const Json& root, const Inspector& inspected, rapidjson::Document& out)
      : inspected_(inspected), memory_(out.GetAllocator()) {
    Json written = any(root);
    count_ = names_.Size();
    if (count_ != 0) written.AddMember(text(own_name("names")), names_, memory_);
    static_cast<Json&>(out) = written;
  }

  std::size_t names() const { return count_; }

  static std::string names_reference(std::size_t index) {
    return fmt::format("#/{}/{}", own_name("names"), index);
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
      else if (limit_of(key) != nullptr && inner.IsNumber())
        out.AddMember(text(own_name(key)), text(number_text(inner)), memory_);
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

  const Inspector& inspected_;
  rapidjson::Document::AllocatorType& memory_;
  Json names_{rapidjson::kArrayType};
  std::size_t count_ = 0;
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
  const std::string text = json_of(*value);
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

// One error of the engine. `step` is set where it only says that something at a deeper place was refused.
struct Error {
  Place place;
  std::string message;
  std::string_view keyword; // that refused it
  bool step = false;
  bool choice = false;  // anyOf, oneOf: what the alternatives refused stands before it
  bool pattern = false; // a step by patternProperties, after which the engine looks at no other key
  std::optional<std::size_t> names = {}; // propertyNames: which
};

// What our own keywords tell: "keyword:words".
void read_own(Error& error, const Json* value, std::string_view told) {
  const std::string_view keyword = told.substr(0, told.find(':'));
  const Limit* limit = limit_of(keyword);
  if (keyword == "propertyNames") {
    error.keyword = "propertyNames";
    error.message = "this object has a key that is not what the schema asks of keys";
    error.names = std::stoul(std::string(told.substr(keyword.size() + 1)));
    return;
  }
  if (limit == nullptr) { // a key that no place in the schema allows
    error.keyword = keyword == "additionalProperties" ? "additionalProperties" : "";
    error.message = fmt::format("`{}` is not a key that the schema allows here",
                                printable(error.place.keys.empty() ? "" : error.place.keys.back()));
    return;
  }
  constexpr std::array relations = {"at most", "less than", "at least", "more than", "a multiple of"};
  constexpr std::array units = {"", " characters", " items", " members"};
  error.keyword = limit->keyword;
  error.message = fmt::format("{} must {} {} {}{}", shown(value), limit->of == Of::number ? "be" : "have",
                              relations[static_cast<std::size_t>(limit->must)],
                              told.substr(keyword.size() + 1), units[static_cast<std::size_t>(limit->of)]);
}

// By how the sentences of the engine begin: further on they hold words of the schema, or of the document.
Error read_error(const Json& root, const valijson::ValidationResults::Error& raw) {
  Error error{place_of(raw.context), {}, {}};
  const std::string_view text = raw.description;
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
    refuse("required", fmt::format("the schema asks for `{}` here", printable(in_quotes())));
  } else if (begins("Missing dependency '")) {
    refuse("dependencies",
           fmt::format("the schema asks for `{}` here, for the sake of another key", printable(in_quotes())));
  } else if (begins("Value type not permitted by 'type'")) {
    refuse("type", fmt::format("the schema does not allow {} here", kind_of(value)));
  } else if (begins("Failed to match regex")) {
    refuse("pattern", fmt::format("{} does not have the form that the schema asks for", shown(value)));
  } else if (begins("Failed to match against any enum values")) {
    refuse("enum", fmt::format("{} is not one of the values that the schema allows", shown(value)));
  } else if (begins("Failed to match expected value")) {
    refuse("const", fmt::format("{} is not the value that the schema asks for", shown(value)));
  } else if (begins("Failed to any values against subschema in 'contains'")) {
    refuse("contains", "no item of this list is what the schema asks for");
  } else if (begins("Target should not validate")) {
    refuse("not", fmt::format("{} is what the schema excludes", shown(value)));
  } else if (begins("Array contains more items")) {
    refuse("additionalItems", fmt::format("{} has more items than the schema allows", shown(value)));
  } else if (begins("Elements at indexes #")) {
    const std::size_t other = rest.find('#');
    const std::string first = number();
    rest.remove_prefix(std::min(rest.size(), other + 1));
    refuse("uniqueItems",
           fmt::format("the items {} and {} of this list (the first is 0) are the same", first, number()));
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
      if ((error.step && explained(error)) || is_doubtful(error)) continue;
      Schema_refusal refusal{error.place.pointer(), error.message, error.keyword};
      if (error.step) refusal.message = "this is refused by the schema as a whole";
      if (std::none_of(out.begin(), out.end(), [&](const Schema_refusal& known) {
            return known.pointer == refusal.pointer && known.message == refusal.message;
          }))
        out.push_back(std::move(refusal));
    }
    return out;
  }

private:
  // After a refusal by one of `patternProperties` the engine takes keys that it did not look at for
  // additional.
  bool is_doubtful(const Error& error) const {
    if (error.keyword != "additionalProperties") return false;
    return std::any_of(errors_.begin(), errors_.end(), [&](const Error& other) {
      return other.pattern && other.place.keys.size() + 1 == error.place.keys.size() &&
             error.place.below(other.place);
    });
  }

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

// What draft-07 says of its own keywords (JSON Schema Validation, draft-handrews-json-schema-validation-01,
// section 6). The engine takes some of what is no schema for one that accepts everything, and divides by a
// `multipleOf` of 0.
constexpr std::string_view schema_of_schemas = R"({
  "definitions": {
    "schemas": { "type": "array", "minItems": 1, "items": { "$ref": "#" } },
    "map": { "type": "object", "additionalProperties": { "$ref": "#" } },
    "count": { "type": "number", "multipleOf": 1, "minimum": 0 },
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

const rapidjson::Document& draft_7() {
  static const rapidjson::Document document = [] {
    rapidjson::Document schema;
    parse(schema_of_schemas, schema);
    return schema;
  }();
  return document;
}

// Whether one of the keywords of a schema may refuse something, at once or further inside.
bool asks(const Json& schema) {
  constexpr std::array<std::string_view, 5> harmless = {"title", "description", "definitions", "then",
                                                        "else"};
  const std::span all = members(schema);
  return std::any_of(all.begin(), all.end(), [&](const Json::Member& member) {
    const std::string_view key = view(member.name);
    if (std::find(harmless.begin(), harmless.end(), key) != harmless.end()) return false;
    return key == "$ref" || find(draft_7()["properties"], key) != nullptr;
  });
}

// A schema for each `propertyNames`, where none needs the root that they lose by it.
void add_names(valijson::SchemaParser& parser, rapidjson::Document& rewritten, std::size_t count,
               Compiled_schema& compiled) {
  auto& memory = rewritten.GetAllocator();
  for (std::size_t index = 0; index < count; ++index) {
    rewritten.RemoveMember("$ref");
    rewritten.AddMember("$ref", Json(Rewriter::names_reference(index).c_str(), memory), memory);
    compiled.names.push_back(std::make_unique<valijson::Schema>());
    parser.populateSchema(valijson::adapters::RapidJsonAdapter(rewritten), *compiled.names.back());
  }
}

Schema built(const rapidjson::Document& document) {
  Schema result;
  const Inspector inspected(document);
  result.problem = inspected.problem;
  if (!result.problem.empty()) return result;
  try {
    auto compiled = std::make_shared<Compiled_schema>();
    rapidjson::Document rewritten;
    const Rewriter rewriter(document, inspected, rewritten);
    valijson::SchemaParser parser(valijson::SchemaParser::kDraft7);
    add_own_keywords(parser);
    parser.populateSchema(valijson::adapters::RapidJsonAdapter(rewritten), compiled->schema);
    if (!inspected.refers_to_root) add_names(parser, rewritten, rewriter.names(), *compiled);
    result.compiled = std::move(compiled);
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception& error) {
    result.problem = printable(error.what());
  }
  return result;
}

std::vector<Schema_refusal> refusals_of(const Json& value, const valijson::Schema& schema,
                                        const Compiled_schema& compiled, valijson::Validator& validator);

// The keys of an object that are refused, each at its place.
std::vector<Error> refused_keys(const Json& object, const Error& refusal, const Compiled_schema& compiled,
                                valijson::Validator& validator) {
  std::vector<Error> out;
  for (const Json::Member& member : members(object)) {
    const std::vector<Schema_refusal> why =
        refusals_of(member.name, *compiled.names[*refusal.names], compiled, validator);
    if (why.empty()) continue;
    Error error = refusal;
    error.place.keys.emplace_back(view(member.name));
    error.message = fmt::format("as a key: {}", why.front().message);
    out.push_back(std::move(error));
  }
  return out;
}

std::vector<Schema_refusal> refusals_of(const Json& value, const valijson::Schema& schema,
                                        const Compiled_schema& compiled, valijson::Validator& validator) {
  // Most documents are accepted, and without results to fill the engine is faster.
  const valijson::adapters::RapidJsonAdapter adapter(value);
  if (validator.validate(schema, adapter, nullptr)) return {};
  valijson::ValidationResults results;
  validator.validate(schema, adapter, &results);
  Refusals refusals;
  valijson::ValidationResults::Error raw;
  while (results.popError(raw)) {
    Error error = read_error(value, raw);
    const Json* object = error.names && !compiled.names.empty() ? value_at(value, error.place) : nullptr;
    if (object == nullptr) {
      refusals.add(std::move(error));
      continue;
    }
    for (Error& key : refused_keys(*object, error, compiled, validator)) refusals.add(std::move(key));
  }
  std::vector<Schema_refusal> out = refusals.take();
  // Refused without a word: by the schema `false`.
  if (out.empty()) out.push_back({"", "the document is refused by the schema as a whole", {}});
  return out;
}

Schema_verdict verdict_on(const Json& document, const Compiled_schema& schema,
                          double most_applications = std::numeric_limits<double>::infinity()) {
  Schema_verdict verdict;
  valijson::std::applications_left = most_applications;
  try {
    const Borrowed_validator validator(schema);
    verdict.refusals = refusals_of(document, schema.schema, schema, *validator);
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception& error) {
    verdict.problem = printable(error.what());
  }
  return verdict;
}

std::string misuse_problem(const Json& schema, std::string_view pointer) {
  static const Schema known = built(draft_7());
  const Schema_verdict verdict = verdict_on(schema, *known.compiled);
  if (!verdict.problem.empty() || verdict.refusals.empty()) return verdict.problem;
  const Schema_refusal& first = verdict.refusals.front();
  const std::string place = fmt::format("{}{}", pointer, first.pointer);
  return fmt::format("what stands at {} is no schema of draft-07: {}",
                     place.empty() ? "its root" : printable(place), first.message);
}

}

bool has_schema_engine() { return true; }

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
  if (!result.problem.empty()) return result;
  round_long_numbers(document);
  result.problem = misuse_problem(document, {});
  if (!result.problem.empty()) return result;
  result = built(document);
  result.asks = document.IsObject() && asks(document);
  return result;
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
  if (!verdict.problem.empty()) return verdict;
  round_long_numbers(document);
  return verdict_on(document, *schema.compiled, 1e6 + 100 * static_cast<double>(text.size()));
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
