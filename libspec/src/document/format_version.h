// The version in a document's `format`.
#pragma once

#include <compare>
#include <optional>
#include <string_view>

namespace ohmlore {

struct Format_version {
  unsigned major = 0, minor = 0;
  auto operator<=>(const Format_version&) const = default;
};

/// Of "ohmlore/1.0": two numbers from 0 to 99 without leading zeros. Empty for any other text.
std::optional<Format_version> format_version(std::string_view tag);

/// The version that this library reads and writes.
Format_version own_format_version();

}
