// The first half of a run: each document by itself, on as many threads as are given.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "corpus/roots.h"
#include "ohmlore/corpus.h"

namespace ohmlore {

/// A document of a run, and what linting it gave.
struct Gathered {
  std::size_t order = 0; ///< its place among all documents of the run
  const Root* root = nullptr;
  Linted linted; ///< its name is there also where it could not be read
  bool read = false;
  bool touched = true; ///< by what changed; false: only for what it says that others may contradict
};

/// Of the files that changed those that are there no more.
struct Gone {
  std::set<std::string, std::less<>> documents; ///< "profile ID", by their file names
  bool folder = false;                          ///< what may have been a folder of documents
};

struct Gathering {
  std::vector<Gathered> documents; ///< of the run in their order, or those of one shard
  // Of the whole run, the same in every shard:
  std::size_t all = 0;              ///< documents
  std::vector<const Root*> roots;   ///< in the order in which documents come to them
  std::string names;                ///< of a shard: SHA-256 of the names of all documents
  std::string sizes;                ///< of a shard: SHA-256 of how many bytes each has
  std::vector<std::string> folders; ///< of a shard: those of which all documents are in the run
  std::string root;                 ///< of a shard: that was given for all documents
  Gone gone;                        ///< of a run over what changed
  // Of this shard alone:
  std::vector<std::string> troubles; ///< beside those of documents
};

/// Lints what a request names. What is wrong with it as a whole is added to `troubles`, the same in every
/// shard.
Gathering gather(const Lint_request& request, Roots& roots, Kept_facts facts,
                 std::vector<std::string>& troubles);

/// What a document says that others may contradict, read again; why it cannot be is added to `troubles`, and
/// that it says something else by now.
std::vector<Fact> facts_again(const Linted& linted, const Root* root, const Lint_request& request,
                              std::vector<std::string>& troubles);

}
