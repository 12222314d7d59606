#include <algorithm>

#include <fmt/format.h>

#include "corpus/files.h"
#include "corpus/roots.h"
#include "ohmlore/corpus.h"
#include "ohmlore/file_names.h"
#include "ohmlore/find.h"

namespace ohmlore {

// By its record, or where it could not be read that far, by its name.
static bool is_of_another_kind(const Document& document, const std::string& file) {
  return document.part() != nullptr || document.corpus() != nullptr || file.ends_with(end_of_part) ||
         std::filesystem::path(file).filename() == corpus_file;
}

Find_run find_paths(const Find_request& request) {
  Find_run run;
  run.words = find_words(request.words);
  if (run.words.empty()) {
    run.troubles.push_back(
        "nothing to look for: write a word of letters or digits, such as a model or a code");
    return run;
  }
  if (run.words.size() > most_words) {
    run.troubles.push_back(fmt::format("{} words are more than are looked for at once, {}: leave some out",
                                       run.words.size(), most_words));
    return run;
  }
  Roots roots(std::nullopt, run.troubles);
  std::vector<Found_profile> found;
  for (const std::string& file : files_of(request.paths, run.troubles)) {
    std::string why;
    const auto bytes = read_document_file(file, why);
    if (!bytes) {
      run.troubles.push_back(fmt::format("{}: cannot be read: {}", file, why));
      continue;
    }
    // What of a profile could be read is searched, whatever else lint finds in it.
    const Read_result read = read_json(file, *bytes);
    if (read.document.profile() == nullptr) {
      if (!is_of_another_kind(read.document, file))
        run.troubles.push_back(fmt::format(
            "{}: not searched, since no profile can be read from it; `ohmlore lint` says why", file));
      continue;
    }
    ++run.profiles;
    const Root* root = roots.of(file);
    Found_profile profile =
        find_in(resolve(read.document, root != nullptr ? root->surroundings() : Surroundings{}), run.words);
    if (!profile.matches.empty()) found.push_back(std::move(profile));
  }
  if (run.profiles == 0 && run.troubles.empty())
    run.troubles.push_back("no profile was found to search; name a folder of profiles with --in");
  run.found = ranked(std::move(found), run.words);
  for (const std::string& word : run.words)
    if (std::none_of(run.found.begin(), run.found.end(), [&](const Found_profile& profile) {
          return std::any_of(profile.matches.begin(), profile.matches.end(),
                             [&](const Find_match& match) { return match.word == word; });
        }))
      run.missing.push_back(word);
  return run;
}

}
