// Findings: what the reader and the rules have to say about a document.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/text.h"
#include "ohmlore/words.h"

namespace ohmlore {

/// A stretch of a file: byte offsets [begin, end), and both ends as line and column. The end is exclusive.
struct Region {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  Position first;
  Position last;
};

/// Another place that explains a finding.
struct Related {
  std::string file;
  Region region;
  std::string message;
};

/// How far a fix may be trusted: only to be shown, to be applied after a look, or to be applied unseen.
enum class Fix_safety : std::uint8_t { display_only, unsafe, safe };

/// Replace the bytes [begin, end) of the finding's file by `text`.
struct Edit {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
  std::string text;
};

struct Fix {
  std::string description;
  Fix_safety safety = Fix_safety::display_only;
  std::vector<Edit> edits;
};

/// One finding. It owns all it needs to be shown: it outlives the document it speaks of.
struct Finding {
  std::string_view rule; ///< slug; points into the registry
  Severity severity = Severity::error;
  std::string file;
  Region region;
  std::string pointer; ///< JSON Pointer of the value; of the enclosing object where a key is missing
  std::string message;
  std::string source_line;         ///< the line of region.first, as written; of a long line what is near
  std::uint32_t source_column = 1; ///< the column at which source_line begins
  std::vector<Related> related;
  std::vector<Fix> fixes;
};

}
