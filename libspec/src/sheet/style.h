// How a sheet looks.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace ohmlore::sheet {

/// A colour by its use, on light and on dark ground; "#rrggbb".
struct Paint {
  std::string_view name, light, dark;
};
std::span<const Paint> paints();

/// Two paints that touch, and the contrast that WCAG 2.1 asks of them: 4.5 of text (1.4.3), 3 of shapes that
/// must be told apart (1.4.11).
struct Paint_pair {
  std::string_view front, ground;
  double least;
};
std::span<const Paint_pair> paint_pairs();

/// The style sheet. `foot_left` and `foot_right` stand at the foot of each printed page, before the page's
/// number; they hold no quotation marks, backslashes or line ends.
std::string style_sheet(std::string_view foot_left, std::string_view foot_right);

}
