#include "lint/colours.h"

#include <algorithm>
#include <optional>
#include <vector>

namespace ohmlore::rules {

// The places in the table of the codes that a text is made of. Green and yellow are combined only as GNYE.
static std::optional<std::vector<std::size_t>> codes_in(std::string_view text) {
  std::vector<std::size_t> codes;
  while (!text.empty()) {
    std::size_t found = std::size(colours);
    for (std::size_t i = 0; i < std::size(colours); ++i)
      if (text.starts_with(colours[i].code)) found = i; // the last: GNYE, not GN
    if (found == std::size(colours) || std::find(codes.begin(), codes.end(), found) != codes.end())
      return std::nullopt;
    codes.push_back(found);
    text.remove_prefix(colours[found].code.size());
  }
  if (codes.empty()) return std::nullopt;
  const auto has = [&](std::string_view code) {
    return std::any_of(codes.begin(), codes.end(), [&](std::size_t i) { return colours[i].code == code; });
  };
  if (codes.size() > 1 && (has("GNYE") || (has("GN") && has("YE")))) return std::nullopt;
  return codes;
}

bool is_colour_code(Text text) {
  for (const Colour& colour : colours)
    if (same_name(text, colour.code)) return true;
  const auto codes = codes_in(text);
  return codes && std::is_sorted(codes->begin(), codes->end());
}

std::string meant_colour_code(Text text) {
  std::string upper, lower, letters;
  for (const char c : text) {
    upper += static_cast<char>(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
    lower += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    if (c != ' ' && c != '/' && c != '-') letters += lower.back();
  }
  for (const Colour& colour : colours)
    if (lower == colour.name) return std::string(colour.code);
  for (const std::string_view earth : // however the two are joined: "green/yellow"
       {"gnye", "yegn", "greenyellow", "yellowgreen", "greenandyellow", "yellowandgreen"})
    if (letters == earth) return "GNYE";
  auto codes = codes_in(upper);
  if (!codes) return {};
  std::sort(codes->begin(), codes->end());
  std::string code;
  for (const std::size_t i : *codes) code += colours[i].code;
  return code;
}

bool is_green_and_yellow(const Wire& wire) {
  if (!wire.base) return false;
  const Text base = *wire.base, stripe = wire.stripe ? *wire.stripe : Text();
  return base == "GNYE" || (base == "GN" && stripe == "YE") || (base == "YE" && stripe == "GN");
}

}
