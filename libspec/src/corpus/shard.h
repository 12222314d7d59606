// Parts of a run on several machines: what each of them gives to the merge.
#pragma once

#include <memory>
#include <span>
#include <string>
#include <vector>

#include "corpus/gather.h"

namespace ohmlore {

/// Why there can be no such shard, or nothing.
std::string shard_problem(const Shard& shard);

/// By the path from the folder of its corpus: a document that is added moves no other to another shard.
bool is_of_shard(const Gathered& document, const Shard& shard);

/// What one shard gave, as a text that ends with its own checksum. `troubles` are of the run as a whole.
std::string shard_text(const Shard& shard, const Gathering& gathering,
                       const std::vector<std::string>& troubles);

/// All shards of a run, put together.
struct Joined {
  std::vector<std::unique_ptr<Root>> roots; ///< without parts: what used them is done
  std::vector<Gathered> documents;          ///< in the order of the run
  std::vector<std::string> troubles;        ///< of the run as a whole
  std::vector<std::string> folders;         ///< those of which all documents are in it
  std::optional<std::string> root;          ///< that was given for all documents
};

/// What is wrong with the shards (torn, of another program, of another run, one missing) is added to
/// `problems`; where there is one, nothing is joined.
Joined joined(std::span<const Shard_file> shards, std::vector<std::string>& problems);

}
