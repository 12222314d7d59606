// What linting documents gave before, kept in a file. Only the same bytes, read by the same program under the
// same name in the same surroundings, give it again; what is torn or changed in the file is as if it were not
// there.
#pragma once

#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "corpus/roots.h"
#include "ohmlore/lint.h"

namespace ohmlore {

/// Ids of the parts that a document names.
std::vector<std::string> parts_named(const Document& document);

struct Remembered {
  Linted linted;
  std::vector<std::string> parts; ///< ids of those that the document names
};

class Cache {
public:
  /// Reads the file, where there is one. `facts`: of the run; `roots`: all that its documents belong to;
  /// `today`: YYYY-MM-DD.
  Cache(const std::string& file, Kept_facts facts, const std::vector<const Root*>& roots,
        std::string_view today);
  /// By which a document is known in its root; `name` is that of its findings.
  std::string key_of(const Root* root, std::string_view name, std::string_view bytes) const;
  /// Any thread may ask.
  std::optional<Remembered> find(const std::string& key, const Root* root);
  /// Any thread may tell. What names a part that is not there is not kept: which one is meant depends on all.
  void add(const std::string& key, const Root* root, const Document& document, const Linted& linted);
  /// Writes the file anew, with what was asked for in the last month too; why it cannot be is added.
  void write(std::vector<std::string>& troubles) const;

private:
  struct Entry {
    int day = 0; ///< when it was last asked for
    std::string_view line;
  };
  struct Root_hashes {
    std::string corpus, ids; ///< of corpus.json, and of the ids of all parts
    std::map<const Document*, std::string> parts;
  };
  const Root_hashes& hashes_of(const Root* root) const;
  /// Which parts are meant by ids, and what they hold; nothing where one is not there.
  std::optional<std::string> parts_of(const Root* root, const std::vector<std::string>& ids) const;

  std::string file_, text_;
  Kept_facts facts_;
  int today_;
  std::map<const Root*, Root_hashes> roots_;
  std::unordered_map<std::string_view, Entry> entries_;
  std::map<std::string, std::string> fresh_; ///< lines by key
  bool foreign_ = false;                     ///< the file is no cache: it is left as it is
  std::mutex mutex_;
};

}
