// What a file was: its SHA-256 (FIPS 180-4).
#pragma once

#include <string>
#include <string_view>

namespace ohmlore {

/// 64 hexadecimal digits.
std::string sha256(std::string_view bytes);
/// "sha256:" and these.
inline std::string named_sha256(std::string_view bytes) { return "sha256:" + sha256(bytes); }

}
