// Searching a corpus: which profiles hold the words that somebody types, the likeliest first.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "ohmlore/model.h"
#include "ohmlore/resolve.h"

namespace ohmlore {

// clang-format off
#define OHMLORE_FIND_FIELDS(word) \
  word(code, "A fault code: its id, or what the appliance shows.") \
  word(model, "A model of the appliance.") \
  word(board, "The part number of the board.") \
  word(spare, "The maker's number of a component.") \
  word(maker, "The maker.") \
  word(profile, "Id or title of the profile.") \
  word(component, "Id or name of a component, or the assembly that it is replaced with.") \
  word(meaning, "What a code means.") \
  word(text, "Any other text: a place, a signal, a cause, a note, the type of the appliance, the id of a part.")
#define OHMLORE_LIKENESSES(word) \
  word(same, "The word itself.") \
  word(beginning, "The beginning of a longer word: two letters or digits at least.") \
  word(inside, "A piece of a longer word: three letters or digits at least.") \
  word(misspelt, "A word that is spelt nearly so; looked for only where no profile holds the word, which has five letters or more and no digit.")
// clang-format on
OHMLORE_ENUM(Find_field, OHMLORE_FIND_FIELDS)
OHMLORE_ENUM(Likeness, OHMLORE_LIKENESSES)

/// Where a profile holds one of the words best.
struct Find_match {
  std::string word; ///< as it was typed
  Find_field field = Find_field::text;
  Likeness likeness = Likeness::same;
  std::string text;               ///< the whole text that it stands in
  std::vector<std::string> codes; ///< ids of the faults in which it stands as well as anywhere
};

struct Found_code {
  std::string id, shown, meaning;
};

struct Found_profile {
  std::string file, id, maker, board, title;
  std::vector<std::string> models;
  std::vector<Find_match> matches; ///< one a word that it holds, in the order of the words
  std::vector<Found_code> codes;   ///< those that words were found in, in document order
  std::size_t together = 0;        ///< the most words that one text holds whole
  double score = 0; ///< sum over the matches of what their field and likeness weigh, and more for `together`
};

inline constexpr std::size_t most_words = 32; ///< that find_paths looks for at once

/// What was typed, as it is compared: words of small letters and digits, what stands between them left out,
/// so that "OV-4410", "ov4410" and "OV 4410" find the same. A word given twice counts once.
std::vector<std::string> find_words(std::span<const std::string> typed);

/// The best match of each word, as find_words gives them, in one profile; empty `matches` where it holds
/// none, or is no profile.
Found_profile find_in(const Resolved& resolved, std::span<const std::string> words);

/// The profiles that hold most of the words, all of them where any does: by their score, then by file. A
/// misspelt match is left out where any profile holds the word otherwise, and a code where another of the
/// profile holds the same words and more.
std::vector<Found_profile> ranked(std::vector<Found_profile> profiles, std::span<const std::string> words);

struct Find_request {
  std::vector<std::string> words;
  std::vector<std::string> paths = {"."}; ///< as of Lint_request
};

struct Find_run {
  std::vector<std::string> words; ///< see find_words
  std::vector<Found_profile> found;
  std::vector<std::string> missing;  ///< words that none of these profiles holds, nor one spelt nearly so
  std::size_t profiles = 0;          ///< how many were searched
  std::vector<std::string> troubles; ///< why some of the work could not be done; one sentence each
};
/// Searches all profiles of a request; parts are those of each one's corpus. What has errors of form is
/// searched as far as it was read.
Find_run find_paths(const Find_request& request);

/// For people, and as one JSON object (spec/v1/find.schema.json): `most` profiles at most, and how many more
/// there are; 0: all.
std::string text_report(const Find_run& run, std::size_t most);
std::string json_report(const Find_run& run, std::size_t most);

}
