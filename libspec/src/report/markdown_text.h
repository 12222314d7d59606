// Words of documents in Markdown.
#pragma once

#include <string>
#include <string_view>

#include "ohmlore/text.h"

namespace ohmlore {

/// Nothing of it is markup, a link, a reference or a mention.
inline std::string markdown_text(std::string_view text) {
  const std::string shown = printable(text);
  std::string out;
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const char c = shown[i];
    // GitHub Flavored Markdown 0.29, 6.9: what begins so becomes a link without being marked as one.
    const bool begins_link = shown.compare(i, 3, "://") == 0 || (c == '.' && out.ends_with("www"));
    if (c == '<')
      out += "&lt;";
    else if (c == '@')
      out += "&#64;";
    else if (begins_link || std::string_view("\\`*_{}[]#|~>&!").find(c) != std::string_view::npos)
      (out += '\\') += c;
    else
      out += c;
  }
  return out;
}

}
