// Where the ways of a connector lie.
#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "ohmlore/sheet.h"
#include "text/small_letters.h"

namespace ohmlore {
namespace {

std::optional<std::int64_t> number_in(std::string_view text) {
  std::int64_t number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || end != text.data() + text.size() || number < 0 || text.starts_with('0'))
    return std::nullopt;
  return number;
}

// The number of the first way, where all pins are numbered so that they fit: terminal strips are often
// numbered on from the one beside them. Empty where names or order must do.
std::optional<std::int64_t> first_number(const Connector& connector) {
  std::int64_t lowest = 0, highest = 0;
  for (const auto& pin : connector.pins) {
    const auto number = number_in(pin.id);
    if (!number) return std::nullopt;
    lowest = lowest == 0 ? *number : std::min(lowest, *number);
    highest = std::max(highest, *number);
  }
  if (highest <= *connector.ways) return 1;
  return highest - lowest < *connector.ways ? std::optional(lowest) : std::nullopt;
}

// Words and numbers of a phrase, punctuation left out.
std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  bool inside = false;
  for (const char c : text) {
    if (!is_letter_or_digit(c)) {
      inside = false;
      continue;
    }
    if (!inside) words.emplace_back();
    inside = true;
    words.back() += small_letter(c);
  }
  return words;
}

template <class... Words>
bool is_any(const std::string& word, const Words&... words) {
  return ((word == words) || ...);
}

// "way 4 blanked", "ways 4, 6 and 10 blanked", "unused ways blanked", "ridge beside way 3", "nose on way 2",
// "rib between ways 3 and 5", "nose at way L". Whatever is said in other words is not drawn: the text stands
// beside the picture.
void read_keying(std::string_view keying, Layout& layout) {
  const std::vector<std::string> words = words_of(keying);
  // Of "a" and "A" neither is told from the other here.
  const auto way_named = [&](const std::string& name) -> std::optional<std::size_t> {
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < layout.ways.size(); ++i) {
      if (small_letters(layout.ways[i].name) != name) continue;
      if (found) return std::nullopt;
      found = i;
    }
    return found;
  };
  const auto word = [&](std::size_t i) { return i < words.size() ? words[i] : std::string(); };
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (!is_any(words[i], "way", "ways")) continue;
    std::vector<std::size_t> named;
    std::size_t next = i + 1;
    for (; next < words.size(); ++next) {
      const auto way = way_named(words[next]);
      if (way)
        named.push_back(*way);
      else if (words[next] != "and" && !number_in(words[next]))
        break;
    }
    const std::string before = i > 0 ? words[i - 1] : std::string(),
                      mark = i > 1 ? words[i - 2] : std::string();
    const bool is_mark = is_any(mark, "ridge", "rib", "nose", "key", "notch", "lug", "latch");
    if (before == "unused" && word(next) == "blanked")
      for (Way& way : layout.ways) way.blanked = way.pin == nullptr;
    else if (word(next) == "blanked")
      for (const std::size_t way : named) layout.ways[way].blanked = layout.ways[way].pin == nullptr;
    else if (is_mark && is_any(before, "beside", "at", "on") && named.size() == 1)
      layout.keys.push_back({named[0], {}});
    else if (is_mark && before == "between" && named.size() == 2)
      layout.keys.push_back({named[0], named[1]});
  }
}

}

Layout layout_of(const Connector& connector) {
  Layout layout;
  const auto first = first_number(connector);
  layout.named = !first;
  const std::size_t ways = static_cast<std::size_t>(connector.ways ? *connector.ways : 0);
  layout.ways.resize(std::max<std::size_t>(ways, connector.pins.size()));
  if (first)
    for (std::size_t i = 0; i < layout.ways.size(); ++i)
      layout.ways[i].name = fmt::format("{}", *first + static_cast<std::int64_t>(i));
  std::size_t next = 0;
  for (const auto& pin : connector.pins) {
    const std::size_t at = first ? static_cast<std::size_t>(*number_in(pin.id) - *first) : next++;
    layout.ways[at].name = pin.id;
    layout.ways[at].pin = &pin.value;
  }
  const std::size_t stated = connector.rows ? static_cast<std::size_t>(*connector.rows) : 1;
  layout.rows_unknown = stated > 1 && (!connector.numbering || layout.named);
  const std::size_t rows =
      layout.rows_unknown ? 1 : std::min(stated, std::max<std::size_t>(layout.ways.size(), 1));
  const std::size_t columns = (layout.ways.size() + rows - 1) / rows;
  const bool across = connector.numbering && *connector.numbering == Numbering::across_rows;
  for (std::size_t i = 0; i < layout.ways.size(); ++i) {
    layout.ways[i].row = static_cast<int>(across ? i % rows : i / columns);
    layout.ways[i].column = static_cast<int>(across ? i / rows : i % columns);
  }
  layout.rows = static_cast<int>(rows);
  layout.columns = static_cast<int>(columns);
  if (connector.keying) read_keying(*connector.keying, layout);
  return layout;
}

}
