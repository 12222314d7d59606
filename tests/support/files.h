// Files as bytes, and what the tests say where one is absent.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

namespace ohmlore::test {

inline std::string read_bytes(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path.string());
  return {std::istreambuf_iterator<char>(file), {}};
}

/// A valid profile that holds nearly every record of the format.
inline std::string larch_profile() {
  return read_bytes(std::filesystem::path(OHMLORE_SOURCE_DIR) / "tests/support/larch.profile.json");
}

}
