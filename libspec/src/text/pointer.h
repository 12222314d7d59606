// The way back of pointer_token (ohmlore/text.h).
#pragma once

#include <string>
#include <string_view>

namespace ohmlore {

/// What a reference token of a JSON Pointer stands for (RFC 6901: ~0 is ~, ~1 is /).
inline std::string token_text(std::string_view token) {
  std::string text;
  for (std::size_t at = 0; at < token.size(); ++at) {
    const std::string_view two = token.substr(at, 2);
    text += two == "~0" ? '~' : two == "~1" ? '/' : token[at];
    if (two == "~0" || two == "~1") ++at;
  }
  return text;
}

}
