// Many files: finding them, their root, their parts; linting them together.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ohmlore/lint.h"
#include "ohmlore/upgrade.h"

namespace ohmlore {

/// One of several parts of a run, told apart by the paths of their documents.
struct Shard {
  std::size_t number = 1, of = 1; ///< from 1 to `of`
};

struct Lint_request {
  /// Files, folders (all *.profile.json, *.part.json and corpus.json below them, hidden folders left out), or
  /// "-"; one at least.
  std::vector<std::string> paths;
  /// Root of the corpus; absent: the nearest folder at or above each file that holds a corpus.json.
  std::optional<std::string> root;
  /// The document that "-" stands for.
  std::string standard_input;
  /// Overrides the policy's failing level.
  std::optional<Severity> fail_on;
  /// A baseline (see baseline.h): what it knows does not count.
  std::optional<std::string> baseline;
  /// Files that changed, those that are gone among them, of a renamed one both names: said is only what they
  /// can have brought. That is all of themselves, of the profiles that name a part among them, of a corpus
  /// whose policy or schema is among them, and what rules over a corpus find with their help. The other
  /// documents are read for that alone.
  std::optional<std::vector<std::string>> changed;
  /// Only this part of the documents (see lint_shard).
  std::optional<Shard> shard;
  /// A file in which is kept what linting each document gave, for the next run: what is the same, read by the
  /// same program in the same surroundings, is not linted again. It is made where there is none; what cannot
  /// be used of it is not. No document may stand in its place.
  std::optional<std::string> cache;
  /// How many threads lint; what is found does not depend on it.
  std::size_t jobs = 1;
  /// Told how many documents of all are done, by one thread at a time.
  std::function<void(std::size_t done, std::size_t all)> progress;
  Lint_options options;
};

struct Lint_run {
  std::vector<Finding> findings;          ///< in path order, then by place; last what is said of the baseline
  std::vector<Finding> suppressed;        ///< what waivers silence or the baseline knows, in the same order
  std::vector<std::string> files;         ///< those that were read, as findings name them, in their order
  std::vector<std::string> house_schemas; ///< files that the corpora of the documents name as theirs
  std::size_t files_read = 0;
  std::size_t files_unchanged = 0;   ///< read only for what changed files have to do with them
  std::size_t failing = 0;           ///< findings that fail
  std::vector<std::string> troubles; ///< why some of the work could not be done; one sentence each
};

/// Lints all documents of a request, corpus-wide rules included. Never silently skips: no path, a path that
/// cannot be read, a root or a baseline that cannot be used, a path that matches no document, or a rule that
/// throws is a trouble.
Lint_run lint_paths(const Lint_request& request);

/// What one shard gave, by name: of a file, for messages.
struct Shard_file {
  std::string name, text;
};

struct Shard_run {
  Lint_run run;     ///< of its documents alone: without what only all of them show
  std::string text; ///< for merge_shards
};

/// Lints the documents of `request.shard`. Rules over a corpus, unused waivers and the baseline are for the
/// merge.
Shard_run lint_shard(const Lint_request& request);

/// What lint_paths of the whole gives, from all its shards: they must be of this program and of one run. Of
/// the request, `fail_on`, `baseline` and `options` count.
Lint_run merge_shards(std::span<const Shard_file> shards, const Lint_request& request);

struct Baseline_request {
  Lint_request lint; ///< `baseline` is the file to write; what stands in it already is kept while it is found
  std::string owner, why, until; ///< of new entries
};

struct Baseline_run {
  std::size_t added = 0, kept = 0, removed = 0; ///< findings that entries stand for
  std::vector<std::string> troubles;            ///< where there is one, nothing was written
  Lint_run run;                                 ///< with what was written: what lint_paths then gives
};

/// Writes the baseline anew, for what documents of a request have now. Entries of other documents stay.
Baseline_run write_baseline(const Baseline_request& request);

/// What the safe fixes do to one file.
struct Fixed_file {
  std::string name;
  std::size_t fixes = 0; ///< how many findings they mend
  std::string diff;      ///< unified diff; empty where the file was written
};

struct Fix_run {
  std::vector<Fixed_file> files; ///< those with fixes, in path order
  std::size_t files_read = 0;
  std::vector<std::string> troubles; ///< also why a file could not be fixed or written; it is then unchanged
};

/// Makes the safe fixes of all documents of a request (see fix_text), and writes the files anew or, with
/// `write` false, says as a diff what would change. Standard input cannot be fixed.
Fix_run fix_paths(const Lint_request& request, bool write);

enum class Rewrite_mode : std::uint8_t { print, check, write };

struct Rewrite_request {
  std::vector<std::string> paths; ///< as of Lint_request; to print, exactly one document
  std::string standard_input;     ///< the document that "-" stands for; it cannot be written
  Rewrite_mode mode = Rewrite_mode::print;
};

struct Rewrite_run {
  std::string text;                 ///< to print: what becomes of the document
  std::vector<std::string> changed; ///< files of which something else becomes, in path order
  std::vector<Finding> findings; ///< of files that the reader refuses: its errors; such a file is left alone
  std::size_t files_read = 0;
  std::vector<std::string> troubles; ///< as of Lint_run, and why a file could not be written
};

/// Documents in their canonical form (see canonical_json): printed, compared, or written in place.
Rewrite_run normalise_paths(const Rewrite_request& request, Prefixes prefixes = Prefixes::as_written);

struct Upgrade_run : Rewrite_run {
  struct Newer {
    std::string name, version;
  };
  std::size_t current = 0;  ///< files that are of this version
  std::vector<Newer> newer; ///< files of a newer minor version; they are left as they are
};

/// Documents brought to this version of the format (see upgrade_text).
Upgrade_run upgrade_paths(const Rewrite_request& request,
                          std::span<const Format_step> steps = format_steps());

/// For read_file, of what is no document.
inline constexpr std::size_t any_size = std::string::npos - 1;

/// The bytes of a file; empty optional where it cannot be read (`why` says why), as a link under the name of
/// a document to a file that has no such name. Hardly more than `most` are read.
std::optional<std::string> read_file(const std::string& path, std::string& why,
                                     std::size_t most = most_bytes);

/// Puts `bytes` in the place of a file, or makes one: written beside it first, then renamed, so that there is
/// never a half of it. Mode bits are kept, links followed. False: nothing changed, `why` says why; a file
/// that is marked read-only is not replaced, not even by root.
bool write_file(const std::string& path, std::string_view bytes, std::string& why);

}
