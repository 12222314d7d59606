// The schema that a house puts on its profiles, beside the format's own.
#pragma once

#include <string>
#include <string_view>

#include "ohmlore/document.h"
#include "ohmlore/schema_engine.h"

namespace ohmlore {

struct House_schema {
  Schema schema;
  Document document;   ///< what it was read from
  std::string problem; ///< why it cannot be used, with its name and where that is known its place; else empty
};

/// Reads and compiles a house schema: a JSON Schema of draft-07. Never throws on bad input.
House_schema read_house_schema(std::string name, std::string_view bytes);

/// The member of the house schema that refuses a value of a profile; 0 where more than one could.
Node_id demanded_at(const House_schema& house, const Document& profile, const Schema_refusal& refusal);

}
