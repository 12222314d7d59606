#include "document/format_version.h"

#include "ohmlore/description.h"

namespace ohmlore {
namespace {

std::optional<unsigned> number(std::string_view digits) {
  const bool plain = digits.size() == 1 || (digits.size() == 2 && digits[0] != '0');
  if (!plain || digits.find_first_not_of("0123456789") != std::string_view::npos) return std::nullopt;
  unsigned value = 0;
  for (const char digit : digits) value = 10 * value + static_cast<unsigned>(digit - '0');
  return value;
}

}

std::optional<Format_version> format_version(std::string_view tag) {
  constexpr std::string_view name = "ohmlore/";
  if (!tag.starts_with(name)) return std::nullopt;
  tag.remove_prefix(name.size());
  const std::size_t dot = tag.find('.');
  if (dot == std::string_view::npos) return std::nullopt;
  const auto major = number(tag.substr(0, dot)), minor = number(tag.substr(dot + 1));
  if (!major || !minor) return std::nullopt;
  return Format_version{*major, *minor};
}

Format_version own_format_version() { return format_version(format_tag).value(); }

}
