// What a change of some files touches in a corpus.
#pragma once

#include <set>
#include <string>
#include <unordered_set>
#include <vector>

#include "corpus/gather.h"

namespace ohmlore {

struct Changed {
  bool everything = false;                ///< the baseline changed
  std::unordered_set<std::string> listed; ///< absolute and normal, as they are spelt and with links followed
  std::set<std::string, std::less<>> parts; ///< ids that parts have or had: what names one is touched
  bool any_part = false;                    ///< a part is gone, or had another id: what names any is touched
  std::unordered_set<std::string> corpora;  ///< folders whose corpus.json changed, came or went
  std::set<const Root*> roots;              ///< whose corpus.json or house schema changed
  Gone gone;
};

/// Of what a request lists. A list that cannot be of this folder is a trouble.
Changed what_changed(const Lint_request& request, const Gathering& run, std::vector<std::string>& troubles);

/// `parts`: ids of those that the document names.
bool touches(const Changed& changed, const Gathered& document, const std::vector<std::string>& parts);

}
