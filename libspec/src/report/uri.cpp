#include <filesystem>

#include <fmt/format.h>

#include "ohmlore/report.h"

namespace ohmlore {

// RFC 3986: what is not unreserved (2.3) or a slash is written as %XX, byte by byte. A colon in the first
// segment would look like a scheme (4.2), and so it is escaped too.
static std::string escaped(std::string_view path) {
  std::string out;
  for (const char c : path) {
    const bool alphanumeric = (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (alphanumeric || std::string_view("-._~/").find(c) != std::string_view::npos)
      out += c;
    else
      out += fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return out;
}

std::string uri_of(std::string_view file, std::string_view folder) {
  namespace fs = std::filesystem;
  const fs::path whole = (fs::path(folder) / fs::path(file)).lexically_normal(); // an absolute `file` stays
  const fs::path inside = whole.lexically_relative(fs::path(folder).lexically_normal());
  const bool is_inside = !inside.empty() && *inside.begin() != "..";
  return is_inside ? escaped(inside.generic_string()) : "file://" + escaped(whole.generic_string());
}

}
