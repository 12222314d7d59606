// Words of documents in Markdown.
#pragma once

#include <string>
#include <string_view>

#include "ohmlore/text.h"

namespace ohmlore {

/// Nothing of it is markup, a reference or a mention.
inline std::string markdown_text(std::string_view text) {
  std::string out;
  for (const char c : printable(text)) {
    if (c == '<')
      out += "&lt;";
    else if (c == '@')
      out += "&#64;";
    else if (std::string_view("\\`*_{}[]#|~>&!").find(c) != std::string_view::npos)
      (out += '\\') += c;
    else
      out += c;
  }
  return out;
}

}
