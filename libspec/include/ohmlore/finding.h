// Findings: what the reader and the rules have to say about a document.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
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
  Position first{}, last{}; ///< of both offsets; set in the findings of a run
};

struct Fix {
  std::string description;
  Fix_safety safety = Fix_safety::display_only;
  std::vector<Edit> edits;
};

/// Why a finding does not count: a waiver in its document silences it, or a baseline knows it.
enum class Suppressed_by : std::uint8_t { waiver, baseline };
struct Finding_suppression {
  Suppressed_by by = Suppressed_by::waiver;
  std::string why; ///< in the words of the waiver or of the entry
};

/// Findings that one mistake made: where none of them is suppressed, the first alone is told (see tell_once).
struct Finding_group {
  std::uint32_t number = 0; ///< within the document and the rule
  std::uint32_t size = 0;   ///< how many findings are in it; 0: in none
  std::string as_one;       ///< of the first: what is said of all
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
  std::string document; ///< "profile ID" or "part ID"; "file PATH" where no id can be read
  /// What stands at the pointer: of a quantity its canonical spelling, of another string its text, else as
  /// written but for escapes, members in the order of their keys. Of a record or list only where it holds no
  /// other, or is refused: else what lies deeper has a pointer of its own. Of a missing key, that key; of a
  /// rule that compares, over a corpus or at one place, what it compared. Where something else contradicts
  /// it, "against" and that one behind it: its id, its place, or of another document what it says.
  std::string value;
  std::optional<Finding_suppression> suppressed;
  bool fails = false; ///< at or above the failing level of its run, and of a rule that may fail
  Severity as_found = Severity::error; ///< before a policy, in the findings of a run
  std::uint32_t times = 1; ///< how many it is told for: others contradict the same place in the same words
  Finding_group group{};
};

/// What a finding is known by from run to run, whatever line it has moved to.
struct Finding_key {
  std::string document, rule, at, value;
  bool operator==(const Finding_key&) const = default;
  bool operator<(const Finding_key& other) const {
    return std::tie(document, rule, at, value) < std::tie(other.document, other.rule, other.at, other.value);
  }
};
Finding_key key_of(const Finding& finding);
/// A text as it is in a key, which a person reads in a baseline: beyond 200 bytes, or with characters that
/// are not seen, its SHA-256.
std::string text_in_keys(const std::string& text);

}
