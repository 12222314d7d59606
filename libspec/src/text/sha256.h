// SHA-256 (FIPS 180-4), so that a person can tell which bytes a page came from.
#pragma once

#include <string>
#include <string_view>

namespace ohmlore {

/// 64 hexadecimal digits.
std::string sha256_hex(std::string_view bytes);

}
