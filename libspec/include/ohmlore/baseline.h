// A baseline: findings that a corpus had when a gate was put before it. They do not count; new ones do.
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "ohmlore/lint.h"

namespace ohmlore {

/// What others keep in a record: keys that begin with x_, and their values as written.
using Free_members = std::vector<std::pair<std::string, std::string>>;

struct Baseline_entry {
  Finding_key key;
  std::size_t count = 1; ///< as many findings have this key; one more is new
  std::string owner, why, until;
  Node_id node = 0; ///< in the document that it was read from
  Free_members free_members = {};
  Severity severity = Severity::error; ///< what is found worse is new
};

struct Baseline {
  Document document;
  std::vector<Baseline_entry> entries;
  Free_members free_members;
};

struct Baseline_read {
  Baseline baseline;
  std::vector<std::string> problems; ///< why it cannot be used; empty where it can
};

/// Reads a baseline (spec/v1/baseline.schema.json). Never throws on bad input.
Baseline_read read_baseline(std::string name, std::string_view bytes);

/// A baseline as JSON, its entries by key.
std::string baseline_text(std::vector<Baseline_entry> entries, const Free_members& free_members = {});

/// What a run looked at: only there an entry that nothing matches is stale.
struct Looked_at {
  struct Document_looked_at {
    bool whole = true, all_rules_ran = true; ///< as of Linted
    bool alone = true;                       ///< no other of that name was left out
  };
  std::map<std::string, Document_looked_at, std::less<>> documents; ///< by the names that keys have
  bool everything = false;                         ///< no document of the corpus was left out
  std::set<std::string, std::less<>> switched_off; ///< rules that the policy does not let speak
  Redirects redirects = {};                        ///< by the names that documents had in keys before
  std::set<std::string, std::less<>> gone = {}; ///< names that documents had in keys which are there no more
};

/// Moves the findings that the baseline knows to those that are suppressed, up to the count and the severity
/// of each entry, and returns what is to be said of the baseline itself: stale entries, and those whose last
/// day is past, which suppress nothing. What a waiver suppressed already counts as known. Nothing is known of
/// a document that was not looked at to its end: what is new there could not be seen.
std::vector<Finding> apply_baseline(const Baseline& baseline, std::vector<Finding>& findings,
                                    std::vector<Finding>& suppressed, const Looked_at& looked_at,
                                    const Lint_options& options);

struct Renewed_baseline {
  std::vector<Baseline_entry> entries;
  std::size_t added = 0, kept = 0, removed = 0; ///< findings that entries stand for
  std::set<std::string> not_whole; ///< documents that hide what comes behind a finding: to be mended first
};

/// The baseline for what a run found: entries that still match, the same with a smaller count where fewer do
/// or some are worse and with no worse severity than was found, all that the run could not judge, and new
/// ones as `fresh` has them for the rest. What a waiver suppressed is found too, but not added.
Renewed_baseline renewed(std::span<const Baseline_entry> known, std::span<const Finding> findings,
                         std::span<const Finding> suppressed, const Looked_at& looked_at,
                         const Lint_options& options, const Baseline_entry& fresh);

}
