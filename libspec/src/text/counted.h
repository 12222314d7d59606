// How many there are of something, in words.
#pragma once

#include <string>
#include <string_view>

#include <fmt/format.h>

namespace ohmlore {

/// "1 item", "3 items".
template <class Integer>
std::string counted(Integer n, std::string_view noun) {
  if (n == 1) return fmt::format("1 {}", noun);
  if (noun == "entry") return fmt::format("{} entries", n);
  return fmt::format("{} {}s", n, noun);
}

}
