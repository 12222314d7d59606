#include "publish/schema_inspector.h"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "ohmlore/description.h"
#include "ohmlore/text.h"
#include "publish/pattern.h"
#include "publish/schema_keywords.h"
#include "text/percent.h"
#include "text/pointer.h"

namespace ohmlore::schemas {
namespace {

constexpr int most_chained = 256;       // schemas inside or behind each other; the engine recurses over them
constexpr int most_in_place = 16;       // of those, schemas for one and the same value
constexpr double most_applied = 10'000; // schemas that look at one value, each as often as it does

// Calls `visit(schema, in_place)` for each schema that stands directly in another.
template <class Visit>
void each_inner(const Json& schema, Visit visit) {
  for (const Keyword& keyword : keywords) {
    const Takes takes = keyword.takes;
    const bool either = takes == Takes::schema_or_schemas;
    const bool one = either || takes == Takes::schema, list = either || takes == Takes::schemas;
    const bool map = takes == Takes::map || takes == Takes::dependencies;
    if (!one && !list && !map) continue;
    const Json* value = find(schema, keyword.name);
    if (value == nullptr) continue;
    const auto take = [&](const Json& inner) {
      if (inner.IsObject()) visit(inner, keyword.in_place);
    };
    if (one) take(*value);
    if (list && value->IsArray())
      for (const Json& item : value->GetArray()) take(item);
    if (map && value->IsObject())
      for (const Json::Member& entry : members(*value)) take(entry.value);
  }
}

// The text after "#" of a `$ref`, as a JSON Pointer. Many write characters there that a URI must encode.
std::string pointer_in(std::string_view fragment) {
  std::string out;
  for (std::size_t at = 0; at < fragment.size(); ++at) {
    const std::optional<char> byte = percent_encoded(fragment, at);
    out += byte.value_or(fragment[at]);
    if (byte) at += 2;
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
  Inspector(const Json& root, Misuse_problem misuse_problem) : root_(root), misuse_problem_(misuse_problem) {
    if (!root.IsObject()) return;
    know(root);
    walk(root, 0);
    for (const Json* schema : seen_) weigh(*schema);
  }

  Inspected take() { return std::move(found_); }

private:
  void know(const Json& schema) {
    if (!schema.IsObject() || !found_.known.insert(&schema).second) return;
    each_inner(schema, [&](const Json& inner, bool) { know(inner); });
  }

  // Every schema that the engine will meet, and how deep it recurses on the way.
  void walk(const Json& schema, int chained) {
    if (!found_.problem.empty()) return;
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
    if (known.height != unknown || !found_.problem.empty()) return known;
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
      if (found_.is_schema(*target) && (key == "const" || key == "enum"))
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
    if (!found_.is_schema(*target)) {
      if (std::string misuse = misuse_problem_(*target, pointer); !misuse.empty()) fail(std::move(misuse));
      know(*target);
    }
    if (target == &root_) found_.refers_to_root = true;
    found_.references[&schema] = std::move(canonical);
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
    if (found_.problem.empty()) found_.problem = std::move(why);
  }

  const Json& root_;
  Misuse_problem misuse_problem_;
  Inspected found_;
  std::vector<const Json*> seen_;
  std::unordered_set<std::string_view> patterns_;
  std::unordered_map<const Json*, Weight> weights_;
  std::unordered_map<const Json*, const Json*> targets_;
};

}

Inspected inspect(const Json& root, Misuse_problem misuse_problem) {
  return Inspector(root, misuse_problem).take();
}

}
