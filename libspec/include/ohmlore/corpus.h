// Many files: finding them, their root, their parts; linting them together.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ohmlore/lint.h"

namespace ohmlore {

struct Lint_request {
  /// Files, folders (all *.profile.json, *.part.json and corpus.json below them, hidden folders left out), or
  /// "-".
  std::vector<std::string> paths;
  /// Root of the corpus; absent: the nearest folder at or above each file that holds a corpus.json.
  std::optional<std::string> root;
  /// The document that "-" stands for.
  std::string standard_input;
  /// Overrides the policy's failing level.
  std::optional<Severity> fail_on;
  Lint_options options;
};

struct Lint_run {
  std::vector<Finding> findings; ///< in path order, then by place
  std::size_t files_read = 0;
  std::size_t failing = 0;           ///< findings at or above the failing level, preview rules left out
  std::vector<std::string> troubles; ///< why some of the work could not be done; one sentence each
};

/// Lints all documents of a request, corpus-wide rules included. Never silently skips: a path that cannot be
/// read, a root that cannot be used, or a path that matches no document is a trouble.
Lint_run lint_paths(const Lint_request& request);

/// The bytes of a file; empty optional where it cannot be read (`why` says why). At most `most_bytes` + 1 are
/// read.
std::optional<std::string> read_file(const std::string& path, std::string& why);

}
