// What stands before all else on whatever goes by a document with errors.
#pragma once

#include <string_view>

namespace ohmlore {

/// {} is how many.
inline constexpr std::string_view errors_caution =
    "Errors that ohmlore lint finds in this file: {}. Do not rely on what it says until they are mended, "
    "waived or not.";

}
