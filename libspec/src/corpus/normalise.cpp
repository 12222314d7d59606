// The canonical form of many files.
#include <algorithm>

#include "corpus/rewrite.h"
#include "ohmlore/canonical_json.h"

namespace ohmlore {

Rewrite_run normalise_paths(const Rewrite_request& request, Prefixes prefixes) {
  Rewrite_run run;
  rewrite_paths(request, run, [&](const std::string& name, const std::string& bytes) {
    Read_result read = read_json(name, bytes);
    const std::size_t before = run.findings.size();
    std::copy_if(std::make_move_iterator(read.findings.begin()), std::make_move_iterator(read.findings.end()),
                 std::back_inserter(run.findings),
                 [](const Finding& finding) { return finding.severity == Severity::error; });
    return run.findings.size() > before ? std::nullopt
                                        : std::optional(canonical_json(read.document, prefixes));
  });
  return run;
}

}
