// What a change of some files touches in a corpus.
#pragma once

#include <filesystem>
#include <set>
#include <string>
#include <vector>

#include "corpus/gather.h"

namespace ohmlore {

struct Changed {
  std::set<std::filesystem::path> files;    ///< as weakly_canonical has them
  std::set<std::string, std::less<>> parts; ///< ids of part documents: what names one is touched
  std::set<const Root*> roots;              ///< whose corpus.json or house schema changed: all is touched
};

/// Of paths that changed, added and removed ones among them. A list that cannot be of this folder is a
/// trouble.
Changed what_changed(const std::vector<std::string>& paths, const Gathering& run,
                     std::vector<std::string>& troubles);

/// `parts`: ids of those that the document names.
bool touches(const Changed& changed, const Gathered& document, const std::vector<std::string>& parts);

}
