// Charts as SVG: panels over one horizontal axis. For pictures of their own and for pages that hold several.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "ohmlore/physics.h"

namespace ohmlore {

struct Chart_axis {
  std::string title;
  Interval range; ///< low < high; both above 0 where logarithmic
  bool logarithmic = false;
  std::function<std::string(double)> label; ///< of a tick
};

struct Chart_point {
  double x = 0, y = 0;
};
struct Chart_stretch {
  double x = 0;
  Interval y; ///< may be infinite: drawn up to the edge
};
struct Chart_mark {
  Interval x, y;           ///< drawn as bars where they are wider than a point
  bool has_middle = false; ///< a ring at `middle`
  Chart_point middle;
};

struct Chart_panel {
  Chart_axis y;
  double height = 300;
  std::vector<std::vector<Chart_stretch>> bands; ///< each in one piece
  std::vector<std::vector<Chart_point>> lines;
  std::vector<Chart_mark> stated, measured;
};

/// What the legend calls them; an empty name is left out.
struct Chart_legend {
  std::string line, band, stated, measured;
};

struct Chart {
  std::string title;
  bool shows_title = true; ///< else it is only for those who do not see the picture, as is the description
  std::string description;
  Chart_axis x;
  Chart_legend legend;
  std::vector<Chart_panel> panels;
  std::vector<std::string> notes;    ///< paragraphs beneath
  std::vector<std::string> cautions; ///< paragraphs beneath these, in a frame
  double width = 720;                ///< 300 at least
};

/// A complete <svg> element, its units CSS pixels where there is room. `id` sets its names apart from those
/// of other charts on a page.
std::string chart_svg(const Chart& chart, std::string_view id = "chart");

/// The rules that an <svg> of chart_svg brings along, for a page that holds several and states them once.
std::string_view chart_style();

/// Round values within a range, at most about `most`; on a linear axis three at least.
std::vector<double> round_ticks(const Chart_axis& axis, int most);

/// From here on stand the scripts of East Asia, whose letters are squares.
inline constexpr char32_t first_square_letter = 0x2E80;

/// Text for XML.
std::string xml_text(std::string_view text);

}
