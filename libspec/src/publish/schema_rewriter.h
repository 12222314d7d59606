// A schema written anew, without what the engine gets wrong, and with the same meaning.
#pragma once

#include <cstddef>
#include <string>

#include "publish/schema_inspector.h"

namespace ohmlore::schemas {

struct Rewritten {
  rapidjson::Document schema;
  std::size_t names = 0; ///< how many schemas of keys it has: each `propertyNames`
};

Rewritten rewrite(const Json& root, const Inspected& inspected);

/// Where in the rewritten schema a schema of keys stands.
std::string names_reference(std::size_t index);

}
