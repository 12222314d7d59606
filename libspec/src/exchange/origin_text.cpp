#include "exchange/origin_text.h"

#include <algorithm>

namespace ohmlore {

std::uint32_t place_of(const std::vector<Origin>& origins, std::uint32_t byte) {
  const auto after =
      std::upper_bound(origins.begin(), origins.end(), byte,
                       [](std::uint32_t at, const Origin& origin) { return at < origin.begin; });
  return after == origins.begin() ? 0 : std::prev(after)->place;
}

}
