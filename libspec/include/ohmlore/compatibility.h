// Whether a change of a schema keeps every document that was good.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ohmlore {

/// A place where the newer schema may refuse what the older one accepts.
struct Narrowing {
  std::string pointer; ///< into the newer schema, or into the older one where the newer has nothing there
  std::string message; ///< what is narrower, with both sides of it
};

struct Compatibility {
  std::vector<Narrowing> narrowings; ///< empty: whatever the older schema accepts, the newer one does
  std::string problem;               ///< why the schemas cannot be compared; empty where they can
};

/// Compares two JSON Schemas (draft-07, RFC 8259 text). An answer without narrowings is certain: keywords are
/// compared one by one, and a keyword that is new, or differs in a way this comparison does not understand,
/// counts as narrower. Sub-schemas under `if` must be alike to be compared. Never throws on bad text.
Compatibility compare_schemas(std::string_view older, std::string_view newer);

}
