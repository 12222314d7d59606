#include "report/lines.h"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "ohmlore/text.h"

namespace ohmlore {
namespace {

constexpr std::string_view units[] = {"Ω", "kΩ", "MΩ", "K", "%", "°C", "min"};

// Whether a line may end at a space: not inside of "± 50 Ω".
bool may_break(std::string_view text, std::size_t space) {
  const std::string_view before = text.substr(0, space), after = text.substr(space + 1);
  if (before.ends_with("±")) return false;
  const bool number = !before.empty() && before.back() >= '0' && before.back() <= '9';
  return !number || std::none_of(std::begin(units), std::end(units),
                                 [&](std::string_view unit) { return after.starts_with(unit); });
}

}

void Lines::wrapped(std::string_view first, std::string_view text) {
  constexpr std::size_t widest = 100;
  const std::string indent(code_points(first), ' ');
  out += first;
  std::size_t column = indent.size();
  bool begins = true;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = text.find(' ', at);
    while (end < text.size() && !may_break(text, end)) end = text.find(' ', end + 1);
    end = std::min(end, text.size());
    const std::string_view word = text.substr(at, end - at);
    const std::size_t width = code_points(word);
    if (!begins && column + 1 + width > widest) {
      out += '\n' + indent;
      column = indent.size();
    } else if (!begins) {
      out += ' ';
      ++column;
    }
    out += word;
    column += width;
    begins = false;
    at = end + 1;
  }
  out += '\n';
}

void Lines::add(std::string_view name, std::string_view text) {
  wrapped(fmt::format("  {:<13}", name), printable(text));
}

}
