// The canonical form of many files.
#include <algorithm>

#include <fmt/format.h>

#include "corpus/files.h"
#include "ohmlore/canonical_json.h"
#include "ohmlore/corpus.h"

namespace ohmlore {

Normalise_run normalise_paths(const Normalise_request& request) {
  Normalise_run run;
  const std::vector<std::string> files = files_of(request.paths, run.troubles);
  if (request.mode == Normalise_mode::print && files.size() > 1) {
    run.troubles.push_back(fmt::format(
        "{} documents are named, and one can be printed; --check lists those that would change, --write "
        "rewrites them",
        files.size()));
    return run;
  }
  for (const std::string& file : files) {
    const bool from_input = file == "-";
    if (from_input && request.mode == Normalise_mode::write) {
      run.troubles.push_back("standard input cannot be written; leave out --write, or name a file");
      continue;
    }
    std::string why;
    const auto bytes = from_input ? std::optional(request.standard_input) : read_file(file, why);
    if (!bytes) {
      run.troubles.push_back(fmt::format("{}: cannot be read: {}", file, why));
      continue;
    }
    ++run.files_read;
    const std::string name = from_input ? "standard input" : file;
    Read_result read = read_json(name, *bytes);
    const std::size_t before = run.findings.size();
    std::copy_if(std::make_move_iterator(read.findings.begin()), std::make_move_iterator(read.findings.end()),
                 std::back_inserter(run.findings),
                 [](const Finding& finding) { return finding.severity == Severity::error; });
    if (run.findings.size() > before) continue;
    std::string text = canonical_json(read.document, request.prefixes);
    const bool changes = text != *bytes;
    if (request.mode == Normalise_mode::print) {
      run.text = std::move(text);
    } else if (changes && request.mode == Normalise_mode::write && !rewrite_file(file, *bytes, text, why)) {
      run.troubles.push_back(fmt::format("{}: cannot be written: {}", file, why));
      continue;
    }
    if (changes) run.changed.push_back(name);
  }
  return run;
}

}
