// A hash that is the same on every machine, unlike std::hash; not for those who mean to deceive (see
// sha256.h).
#pragma once

#include <cstdint>
#include <string_view>

namespace ohmlore {

/// FNV-1a, 64 bits (Fowler, Noll and Vo; draft-eastlake-fnv).
constexpr std::uint64_t stable_hash(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3;
  return hash;
}

}
