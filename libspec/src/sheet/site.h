// The index of a site of sheets.
#pragma once

#include <string>
#include <vector>

#include "sheet/catalogue.h"

namespace ohmlore::sheet {

/// What the index says of one sheet; it outlives the profile.
struct Site_entry {
  std::string file; ///< beside the index
  std::string title, maker, models, board, appliance;
  std::size_t model_count = 0;
  struct Code {
    std::string id, shown, meaning;
  };
  std::vector<Code> codes;
};
Site_entry site_entry(const Profile& profile, const Catalogue& words);

/// A page with all entries by maker, searched by a small script; without one it is an index.
std::string site_html(const std::string& title, const std::string& licence, std::vector<Site_entry> entries,
                      const Catalogue& words);

}
