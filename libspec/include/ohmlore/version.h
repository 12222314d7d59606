#pragma once

#include <string_view>

namespace ohmlore {

/// Version of the library and the program; the format has its own (`format_tag`).
inline constexpr std::string_view program_version = "1.0.0";

}
