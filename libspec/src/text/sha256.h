// What a file was: its SHA-256 (FIPS 180-4).
#pragma once

#include <string>
#include <string_view>

#include <nettle/sha2.h>

namespace ohmlore {

/// Of bytes that come in pieces.
class Sha256 {
public:
  Sha256() { sha256_init(&state_); }
  void add(std::string_view bytes);
  /// 64 hexadecimal digits; what is added after that is of other bytes.
  std::string digits();

private:
  sha256_ctx state_{};
};

/// 64 hexadecimal digits.
std::string sha256(std::string_view bytes);
/// "sha256:" and these.
inline std::string named_sha256(std::string_view bytes) { return "sha256:" + sha256(bytes); }

}
