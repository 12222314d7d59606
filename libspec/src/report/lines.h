// Text for people: wrapped lines with a name at their left.
#pragma once

#include <string>
#include <string_view>

namespace ohmlore {

/// Wrapped, so that a name at the left stays seen.
struct Lines {
  std::string out;
  /// `text` as it is, behind `first`, further lines indented by as much.
  void wrapped(std::string_view first, std::string_view text);
  /// A line of a block: a name in its column, and a text made safe for a terminal.
  void add(std::string_view name, std::string_view text);
};

}
