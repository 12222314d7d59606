// Files as bytes, and what the tests say where one is absent.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <string_view>

namespace ohmlore::test {

inline std::string read_bytes(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path.string());
  return {std::istreambuf_iterator<char>(file), {}};
}

/// The bytes that a recipe describes (tests/rules/rule_cases.cpp says how one is written).
inline std::string cooked(std::string_view recipe) {
  std::string out;
  while (!recipe.empty()) {
    if (recipe.starts_with("%{")) {
      const std::size_t space = recipe.find(' '), end = recipe.find('}');
      const std::string text = cooked(recipe.substr(space + 1, end - space - 1));
      for (long n = std::stol(std::string(recipe.substr(2, space - 2))); n > 0; --n) out += text;
      recipe.remove_prefix(end + 1);
    } else if (recipe.starts_with('%')) {
      out += static_cast<char>(std::stoi(std::string(recipe.substr(1, 2)), nullptr, 16));
      recipe.remove_prefix(3);
    } else {
      out += recipe.front();
      recipe.remove_prefix(1);
    }
  }
  return out;
}

/// A valid profile that holds nearly every record of the format.
inline std::string larch_profile() {
  return read_bytes(std::filesystem::path(OHMLORE_SOURCE_DIR) / "tests/support/larch.profile.json");
}

}
