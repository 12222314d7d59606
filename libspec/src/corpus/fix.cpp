// The safe fixes of many files.
#include "ohmlore/fix.h"

#include <fmt/format.h>

#include "corpus/files.h"
#include "corpus/roots.h"
#include "ohmlore/corpus.h"

namespace ohmlore {

Fix_run fix_paths(const Lint_request& request, bool write) {
  Fix_run run;
  Roots roots(request.root, run.troubles);
  for (const std::string& file : files_of(request.paths, run.troubles)) {
    if (file == "-") {
      run.troubles.push_back("standard input cannot be fixed; name a file");
      continue;
    }
    std::string why;
    const auto bytes = read_file(file, why);
    if (!bytes) {
      run.troubles.push_back(fmt::format("{}: cannot be read: {}", file, why));
      continue;
    }
    ++run.files_read;
    if (bytes->size() > most_bytes) continue; // lint says so
    const Root* root = roots.of(file);
    const Fixed fixed = fix_text(file, *bytes, root ? root->surroundings() : Surroundings{}, request.options);
    if (!fixed.refusal.empty()) run.troubles.push_back(fmt::format("{}: not fixed: {}", file, fixed.refusal));
    if (fixed.edits.empty()) continue;
    if (!write) {
      run.files.push_back({file, fixed.fixes, unified_diff(file, *bytes, fixed.edits)});
    } else if (!rewrite_file(file, *bytes, fixed.text, why)) {
      run.troubles.push_back(fmt::format("{}: not fixed: it cannot be written: {}", file, why));
    } else {
      run.files.push_back({file, fixed.fixes, {}});
    }
  }
  return run;
}

}
