// What every fuzz program needs: the bytes that it is given, and a way to say what must hold for all bytes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

/// The entry that libFuzzer calls with bytes of its own making, and replay.cpp with those of files.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace ohmlore::fuzz {

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

/// What stands between the pieces of an input that has several: it is in no text that people write.
inline constexpr char separator = '\x1E';

inline std::vector<std::string_view> pieces(std::string_view bytes) {
  std::vector<std::string_view> out;
  for (;;) {
    const std::size_t end = bytes.find(separator);
    out.push_back(bytes.substr(0, end));
    if (end == std::string_view::npos) return out;
    bytes.remove_prefix(end + 1);
  }
}

/// Ends the program, as a crash does, where something does not hold.
inline void expect(bool holds, const char* what, std::string_view details = {}) {
  if (holds) return;
  std::fprintf(stderr, "\nDoes not hold: %s\n", what);
  std::fwrite(details.data(), 1, details.size(), stderr);
  std::abort();
}

}
