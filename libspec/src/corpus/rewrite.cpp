#include "corpus/rewrite.h"

#include <fmt/format.h>

#include "corpus/files.h"
#include "ohmlore/description.h"
#include "ohmlore/file_names.h"

namespace ohmlore {

void rewrite_paths(const Rewrite_request& request, Rewrite_run& run, const Rewriting& rewritten) {
  const std::vector<std::string> files = files_of(request.paths, run.troubles);
  if (request.mode == Rewrite_mode::print && files.size() > 1) {
    run.troubles.push_back(fmt::format(
        "{} documents are named, and one can be printed; --check lists those that would change, --write "
        "rewrites them",
        files.size()));
    return;
  }
  for (const std::string& file : files) {
    const bool from_input = file == "-";
    if (from_input && request.mode == Rewrite_mode::write) {
      run.troubles.push_back("standard input cannot be written; leave out --write, or name a file");
      continue;
    }
    std::string why;
    const auto bytes = from_input ? std::optional(request.standard_input) : read_document_file(file, why);
    if (!bytes) {
      run.troubles.push_back(fmt::format("{}: cannot be read: {}", file, why));
      continue;
    }
    ++run.files_read;
    const std::string name = from_input ? std::string(name_of_standard_input) : file;
    std::optional<std::string> text = rewritten(name, *bytes);
    if (!text) continue;
    const bool changes = *text != *bytes;
    if (changes && text->size() > most_bytes) {
      run.troubles.push_back(fmt::format(
          "{}: stays as it is: rewritten it would have {} bytes, and a document has at most {} ({} MiB)",
          file, text->size(), most_bytes, most_bytes >> 20));
      continue;
    }
    if (request.mode == Rewrite_mode::print) {
      run.text = std::move(*text);
    } else if (changes && request.mode == Rewrite_mode::write && !rewrite_file(file, *bytes, *text, why)) {
      run.troubles.push_back(fmt::format("{}: cannot be written: {}", file, why));
      continue;
    }
    if (changes) run.changed.push_back(name);
  }
}

}
