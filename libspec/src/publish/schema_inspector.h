// A schema looked at before the engine sees it: whether it can safely work with it.
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

#include "publish/schema_json.h"

namespace ohmlore::schemas {

struct Inspected {
  std::string problem; ///< empty where the engine can safely work with the schema
  bool refers_to_root = false;
  /// Reached by keywords, from the root or from where a `$ref` leads.
  std::unordered_set<const Json*> known;
  /// The `$ref` of each schema that the engine will meet, as it reads it.
  std::unordered_map<const Json*, std::string> references;

  bool is_schema(const Json& value) const { return known.contains(&value); }
  /// Null where the engine will not meet that schema.
  const std::string* reference_of(const Json& schema) const {
    const auto at = references.find(&schema);
    return at == references.end() ? nullptr : &at->second;
  }
};

/// What a `$ref` names may be anything: "" where draft-07 takes it for a schema, and else why not.
using Misuse_problem = std::string (*)(const Json& value, std::string_view pointer);

/// Changes nothing of the schema, and views into it.
Inspected inspect(const Json& root, Misuse_problem misuse_problem);

}
