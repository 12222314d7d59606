// Texts that XML or a line of CSV cannot carry are written with the escapes of JSON.
#pragma once

#include <string>
#include <string_view>

namespace ohmlore {

/// True where a text has a character that XML 1.0 cannot carry, or would not keep (Char and section 3.3.3).
bool needs_escapes(std::string_view text);

/// The text between the quotation marks of a JSON string: `"`, `\` and control characters escaped.
std::string with_escapes(std::string_view text);

/// True where a text could stand between the quotation marks of a JSON string.
bool is_escaped_text(std::string_view text);

}
