// Random choices.
#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include <fmt/format.h>

namespace ohmlore::test {

/// The same everywhere: the distributions of the standard library are not.
class Chance {
public:
  explicit Chance(std::uint64_t seed) : engine_(seed) {}
  double between(double low, double high) {
    return low + (high - low) * (static_cast<double>(engine_() >> 11) / 9007199254740992.0); // 2^53
  }
  /// Both included.
  int whole(int low, int high) {
    return low + static_cast<int>(engine_() % static_cast<std::uint64_t>(high - low + 1));
  }
  bool one_in(int n) { return whole(1, n) == 1; }
  /// So many digits after the point.
  std::string decimal(double low, double high, int places) {
    return fmt::format("{:.{}f}", between(low, high), places);
  }
  template <class T>
  const T& of(const std::vector<T>& all) {
    return all[static_cast<std::size_t>(whole(0, static_cast<int>(all.size()) - 1))];
  }

private:
  std::mt19937_64 engine_;
};

}
