// What the engine refuses, in our words. Its results name no places and repeat each refusal on every level
// above it; what leaves here has a JSON Pointer, and is the deepest refusals only.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/schema_engine.h"
#include "publish/schema_json.h"

namespace ohmlore::schemas {

struct Place {
  std::vector<std::string> keys;
  bool below(const Place& other) const; ///< or the same
  std::string pointer() const;
};

const Json* value_at(const Json& root, const Place& place);

/// One error of the engine. `step` is set where it only says that something at a deeper place was refused.
struct Error {
  Place place;
  std::string message;
  std::string_view keyword; ///< that refused it
  std::string missing = {}; ///< the key that it asks for
  bool step = false;
  bool choice = false;  ///< anyOf, oneOf: what the alternatives refused stands before it
  bool pattern = false; ///< a step by patternProperties, after which the engine looks at no other key
  std::optional<std::size_t> names = {}; ///< propertyNames: which
};

/// Of what the engine says: where, and its sentence.
Error read_error(const Json& root, const std::vector<std::string>& context, std::string_view text);

/// Takes the errors in the order in which the engine tells them.
class Refusals {
public:
  void add(Error error);
  std::vector<Schema_refusal> take();

private:
  bool is_doubtful(const Error& error) const;
  void keep_deepest_below(Error& choice);

  std::vector<Error> errors_;
};

}
